/** The renderer that the editor calls to draw the output below a notebook cell. */
import { render } from 'preact';
import { editorStyle, Screws, Target, TargetTable } from '../../drawing/index.ts';
import { isCellView, type CellView } from '../../model/index.ts';

/** The part of the editor's interface that is used. */
interface OutputItem {
  json(): unknown;
}

export function activate() {
  return {
    renderOutputItem(item: OutputItem, element: HTMLElement): void {
      const view = item.json();
      if (isCellView(view)) render(<Cell view={view} />, element);
    },
    disposeOutputItem: () => undefined,
  };
}

/** Pixels. */
const WIDTH = { target: 300, screws: 300 };
const STYLE = `${editorStyle()}
.sheet{font-family:var(--vscode-font-family);font-size:var(--vscode-font-size);color:var(--vscode-foreground)}
.sheet p{margin:2px 0 6px}
.sheet .row{display:flex;flex-wrap:wrap;gap:12px;align-items:flex-start}
.sheet table{border-collapse:collapse;margin:4px 0}
.sheet caption{text-align:left}
.sheet th,.sheet td{text-align:left;font-weight:400;padding:2px 10px 2px 0}`;

function Cell({ view: { text, figure, mounts = [] } }: { readonly view: CellView }) {
  return (
    <div class="sheet">
      <style>{STYLE}</style>
      <p>{text}</p>
      <div class="row">
        {figure && <Target figure={figure} width={WIDTH.target} />}
        {mounts.map((mount) => (
          <Screws key={mount.part} figure={mount} width={WIDTH.screws} />
        ))}
      </div>
      {figure && (
        <details>
          <summary>In numbers</summary>
          <TargetTable figure={figure} />
        </details>
      )}
    </div>
  );
}
