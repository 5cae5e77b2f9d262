/** The panel's page: the messages that it receives, and what stays as the user chose it. */
import { useEffect, useReducer, useState } from 'preact/hooks';
import type { ClosingSheet, FromPanel, PanelView, PanelOptions, TextPlace, ToPanel } from '../../model/index.ts';
import { panelStateFrom, type PanelState } from './panel-state.ts';
import { Work } from './work.tsx';

export interface AppProps {
  send(message: FromPanel): void;
  listen(receive: (message: ToPanel) => void): void;
  readonly storedState: unknown;
  storeState(state: PanelState): void;
}

interface Received {
  readonly uri?: string;
  readonly file?: string;
  readonly sheet?: PanelView | null;
  readonly selected: TextPlace | null;
  readonly closing?: ClosingSheet | undefined;
}

function receive(received: Received, message: ToPanel): Received {
  if (message.type === 'selected') return { ...received, selected: message.mark };
  if (message.type === 'closing') return { ...received, closing: message.closing };
  return { ...received, closing: undefined, uri: message.uri, file: message.file, sheet: message.sheet };
}

export function App({ send, listen, storedState, storeState }: AppProps) {
  const [{ uri, file, sheet: view, selected, closing }, receiveMessage] = useReducer(receive, { selected: null });
  const [kept, setKept] = useState(() => panelStateFrom(storedState));
  const [options, setOptions] = useState<PanelOptions>(() => ({
    station: kept.station,
    round: kept.round,
    visits: kept.open?.includes('visits'),
  }));
  const request = (next: PanelOptions) => {
    setOptions(next);
    send({ type: 'ask', of: uri, ...next });
  };
  useEffect(() => {
    listen(receiveMessage);
    send({ type: 'ask', of: kept.uri, ...options });
  }, []);
  useEffect(() => {
    if (uri === undefined) return;
    const { station: _, round: __, ...rest } = kept;
    storeState({
      ...rest,
      uri,
      ...(view && { station: view.figure.station }),
      ...(options.round !== undefined && { round: options.round }),
    });
  }, [uri, kept, view, options.round]);

  if (view === undefined)
    return <p class="empty">{kept.uri === undefined ? 'Open a workbook to see its targets.' : ''}</p>;
  if (view === null)
    return <p class="empty">{`${file ?? ''} describes no machine yet, so there is nothing to draw.`}</p>;
  return (
    <Work
      // What is chosen, tried or ticked belongs to one workbook.
      key={uri}
      file={file ?? ''}
      view={view}
      options={options}
      kept={kept}
      selected={selected ?? undefined}
      closing={closing}
      request={request}
      keep={(part) => setKept({ ...kept, ...part })}
      send={send}
    />
  );
}
