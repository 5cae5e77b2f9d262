/** The panel's script: renders the page and exchanges messages with the extension. */
import { render } from 'preact';
import { isToPanel, type FromPanel } from '../../model/index.ts';
import { App } from './app.tsx';
import { STYLE } from './style.ts';

/** The function that the editor provides to a page. */
declare function acquireVsCodeApi(): {
  postMessage(message: unknown): void;
  getState(): unknown;
  setState(state: unknown): void;
};

/** The editor inserts scripts of its own before this one. */
const nonce = document.currentScript!.nonce;
const editor = acquireVsCodeApi();
addStyle(STYLE);
render(
  <App
    send={(message: FromPanel) => editor.postMessage(message)}
    listen={(receive) =>
      addEventListener('message', ({ data }: MessageEvent<unknown>) => isToPanel(data) && receive(data))
    }
    storedState={editor.getState()}
    storeState={(state) => editor.setState(state)}
  />,
  document.getElementById('sheet')!,
);

/** With the nonce of this script. */
function addStyle(text: string): void {
  const style = document.createElement('style');
  style.nonce = nonce;
  style.textContent = text;
  document.head.append(style);
}
