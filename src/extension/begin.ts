/** Starts the parts that the desktop and the browser have in common: log, server, status bar and commands. */
import { notebooks, window, workspace, type ExtensionContext, type TextDocument } from 'vscode';
import { done } from './begun.ts';
import { registerCommands } from './commands.ts';
import { offerQuestions } from './empty.ts';
import { InFront } from './in-front.ts';
import { LANGUAGE } from './language.ts';
import { registerMachineCommands } from './machines/commands.ts';
import { MachinesView } from './machines/view.ts';
import { drawMargin } from './margin.ts';
import { followBlanks } from './notebook/blanks.ts';
import { oneAtATime } from './notebook/one-at-a-time.ts';
import { Outputs } from './notebook/outputs.ts';
import { serializer } from './notebook/serializer.ts';
import { signed } from './notebook/signed.ts';
import { NOTEBOOK } from './notebook/type.ts';
import { Panel } from './panel/panel.ts';
import { RecordView } from './record/record.ts';
import { followRenames } from './renamed.ts';
import { Server, type Connect } from './server.ts';
import { VerdictItem } from './verdict-item.ts';

export function begin(context: ExtensionContext, connect: Connect): void {
  const log = window.createOutputChannel('Alignbook', { log: true });
  const server = new Server(connect, log);
  const panel = new Panel(server, context.extensionUri);
  const record = new RecordView(server, String((context.extension.packageJSON as { version?: unknown }).version ?? ''));
  const machines = new MachinesView(server, context.extensionUri);
  const front = new InFront(panel, record);
  const parts = { server, panel, record, front, log, extension: context.extensionUri };
  const notebook = workspace.registerNotebookSerializer(NOTEBOOK, serializer, { transientOutputs: true });
  context.subscriptions.push(
    log,
    server,
    panel,
    record,
    machines,
    notebook,
    oneAtATime(),
    new Outputs(server, context.extension.id),
    front,
    followBlanks(),
    notebooks.registerNotebookCellStatusBarItemProvider(NOTEBOOK, signed),
    new VerdictItem(server, front),
    drawMargin(server),
    offerQuestions(),
    followRenames(),
    ...registerCommands(parts),
    ...registerMachineCommands(parts, machines),
  );
  const opened = ({ languageId }: TextDocument) => languageId === LANGUAGE && done('hasWorkbook');
  workspace.textDocuments.forEach(opened);
  context.subscriptions.push(workspace.onDidOpenTextDocument(opened));
  // Not awaited, so that the editor does not wait for the server.
  void server.start();
}
