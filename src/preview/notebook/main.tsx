/**
 * The renderer that the editor calls to draw below a notebook's cell. The output of a cell is a place; what is drawn
 * there is sent by the extension, and sent again whenever it changes, so that the picture changes in place.
 */
import { render } from 'preact';
import { CellSheet, editorStyle, SHEET_STYLE } from '../../drawing/index.ts';
import { isSheet, type CellView, type FromSheets, type Sheet, type ToSheets } from '../../model/index.ts';

/** The parts of the editor's interface that are used. */
interface OutputItem {
  readonly id: string;
  json(): unknown;
}
interface Context {
  postMessage?(message: FromSheets): void;
  onDidReceiveMessage?(listener: (views: ToSheets) => void): unknown;
}

interface Place {
  readonly element: HTMLElement;
  readonly sheet: Sheet;
}

export function activate(context: Context) {
  const views = new Map<string, CellView | null>();
  const places = new Map<string, Place>();
  context.onDidReceiveMessage?.((some) => {
    for (const [key, view] of Object.entries(some)) {
      views.set(key, view);
      for (const place of places.values()) if (place.sheet.key === key) draw(place, view);
    }
  });
  return {
    renderOutputItem(item: OutputItem, element: HTMLElement): void {
      const sheet = item.json();
      if (!isSheet(sheet)) return;
      const place = { element, sheet };
      places.set(item.id, place);
      draw(place, views.get(sheet.key));
      if (!views.has(sheet.key)) context.postMessage?.({ key: sheet.key });
    },
    disposeOutputItem(id?: string): void {
      if (id === undefined) places.clear();
      else places.delete(id);
    },
  };
}

/** @param view undefined until it arrives: its height is kept, as that of the view before a cell with errors */
function draw({ element, sheet }: Place, view: CellView | null | undefined): void {
  const height =
    view === undefined ? sheet.height : view?.kind === 'unread' ? Math.max(element.offsetHeight, sheet.height) : 0;
  element.style.minHeight = `${height}px`;
  render(
    view ? (
      <>
        <style>{STYLE}</style>
        <CellSheet view={view} />
      </>
    ) : null,
    element,
  );
}

const STYLE = `${editorStyle()}${SHEET_STYLE}`;
