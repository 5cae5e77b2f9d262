/** The panel's script: puts the sheet into the page, and speaks with the extension. */
import { render } from 'preact';
import { isToPanel, type FromPanel } from '../../model/index.ts';
import { App } from './app.tsx';
import { STYLE } from './style.ts';

/** What the editor lends a page. */
declare function acquireVsCodeApi(): {
  postMessage(said: unknown): void;
  getState(): unknown;
  setState(state: unknown): void;
};

/** The editor puts scripts of its own before this one. */
const nonce = document.currentScript!.nonce;
const editor = acquireVsCodeApi();
addStyle(STYLE);
render(
  <App
    say={(said: FromPanel) => editor.postMessage(said)}
    listen={(hear) => addEventListener('message', ({ data }: MessageEvent<unknown>) => isToPanel(data) && hear(data))}
    kept={editor.getState()}
    keep={(state) => editor.setState(state)}
  />,
  document.getElementById('sheet')!,
);

/** Under the same number as the script that asks for it. */
function addStyle(text: string): void {
  const style = document.createElement('style');
  style.nonce = nonce;
  style.textContent = text;
  document.head.append(style);
}
