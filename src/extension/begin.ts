/** Starts the parts that the desktop and the browser have in common: log, server, status bar and commands. */
import { notebooks, window, workspace, type ExtensionContext } from 'vscode';
import { registerCommands } from './commands.ts';
import { followBlanks } from './notebook/blanks.ts';
import { oneAtATime } from './notebook/one-at-a-time.ts';
import { Outputs } from './notebook/outputs.ts';
import { serializer } from './notebook/serializer.ts';
import { signed } from './notebook/signed.ts';
import { NOTEBOOK } from './notebook/type.ts';
import { Panel } from './panel/panel.ts';
import { RecordView } from './record/record.ts';
import { Server, type Connect } from './server.ts';
import { VerdictItem } from './verdict-item.ts';

export function begin(context: ExtensionContext, connect: Connect): void {
  const log = window.createOutputChannel('Alignbook', { log: true });
  const server = new Server(connect, log);
  const panel = new Panel(server, context.extensionUri);
  const record = new RecordView(server, String((context.extension.packageJSON as { version?: unknown }).version ?? ''));
  const notebook = workspace.registerNotebookSerializer(NOTEBOOK, serializer, { transientOutputs: true });
  context.subscriptions.push(
    log,
    server,
    panel,
    record,
    notebook,
    oneAtATime(),
    new Outputs(server, context.extension.id),
    followBlanks(),
    notebooks.registerNotebookCellStatusBarItemProvider(NOTEBOOK, signed),
    new VerdictItem(server),
    ...registerCommands(server, panel, record, log),
  );
  // Not awaited, so that the editor does not wait for the server.
  void server.start();
}
