/** Requests that change the text: quick fixes, formatting, the advised step, and code lenses. */
import {
  CodeActionKind,
  ErrorCodes,
  ResponseError,
  type CodeAction,
  type CodeLens,
  type Command,
  type Diagnostic,
  type ExecuteCommandParams,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { ADD_STEP_COMMAND, pathTo, ROOT, type Signature } from '../../model/index.ts';
import {
  addStep,
  adviceNow,
  cellAt,
  fixAll,
  fixesAt,
  formatting,
  signatureBelow,
  touchedSince,
  type Change,
  type Fix,
} from '../../language/index.ts';
import type { Opened } from '../documents/workspace.ts';
import { editsOn, rangeOn } from '../documents/workbook-document.ts';
import { guarded, type Session } from '../documents/session.ts';

const FIX_ALL = `${CodeActionKind.SourceFixAll}.alignbook`;

export const CODE_ACTION_KINDS = [CodeActionKind.QuickFix, FIX_ALL, CodeActionKind.RefactorRewrite];

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one handler for each request
export function offerEdits(session: Session): void {
  const { connection, workspace } = session;

  connection.onCodeAction(
    guarded(
      session,
      'fixes',
      [],
      async ({ textDocument: { uri }, range, context: { diagnostics, only } }): Promise<CodeAction[]> => {
        const opened = workspace.at(uri);
        if (!opened) return [];
        await workspace.ready(opened);
        const isRequested = (kind: string) => !only || only.some((one) => kind === one || kind.startsWith(`${one}.`));
        const { book, document } = opened;
        const fixes = isRequested(CodeActionKind.QuickFix)
          ? fixesAt(book, document.offsetAt(uri, range.start), document.offsetAt(uri, range.end))
          : [];
        return [
          ...fixes
            .filter(({ changes }) => canBeMade(opened, changes))
            .map((fix) => quickFix(session, opened, fix, diagnostics)),
          // Only when requested by name: it belongs to no single finding.
          ...(only && isRequested(FIX_ALL) ? wholeFix(opened) : []),
          ...(isRequested(CodeActionKind.RefactorRewrite) ? stepAction(opened) : []),
        ];
      },
    ),
  );

  const layout = (uri: string, wanting: (opened: Opened) => (index: number, text: string) => boolean): TextEdit[] => {
    const opened = workspace.at(uri);
    if (!opened) return [];
    return formatting(opened.book, wanting(opened)).flatMap(
      (change) => editsOn(opened.document, [change])?.get(uri) ?? [],
    );
  };
  connection.onDocumentFormatting(
    guarded(session, 'layout', [], ({ textDocument: { uri } }) =>
      layout(uri, ({ saved }) => (session.settings.format === 'all' ? () => true : touchedSince(saved))),
    ),
  );
  connection.onDocumentRangeFormatting(
    guarded(session, 'layout', [], ({ textDocument: { uri }, range }) =>
      layout(uri, ({ book, document }) => {
        const [first, last] = [range.start, range.end].map((position) =>
          cellAt(book, document.offsetAt(uri, position)),
        );
        return (index) => first! <= index && index <= last!;
      }),
    ),
  );

  connection.onCodeLens(
    guarded(session, 'lenses', [], async ({ textDocument: { uri } }): Promise<CodeLens[]> => {
      const opened = workspace.at(uri);
      if (!opened) return [];
      await workspace.ready(opened);
      return lensesOf(opened, uri);
    }),
  );

  connection.onExecuteCommand(
    guarded(session, 'command', null, async ({ command, arguments: given }: ExecuteCommandParams) => {
      const uri: unknown = given?.[0];
      const opened = typeof uri === 'string' ? workspace.byUri(uri) : undefined;
      if (command !== ADD_STEP_COMMAND || !opened) return null;
      await workspace.ready(opened);
      await addTo(session, opened);
      return null;
    }),
  );
}

/** Edits of versioned documents: the protocol's workspace edit, and the answer of our own requests. */
export function workspaceEdit(changed: readonly (readonly [Opened, readonly Change[]])[]): {
  documentChanges: { textDocument: { uri: string; version: number | null }; edits: TextEdit[] }[];
} {
  const documentChanges = changed.flatMap(([{ document }, changes]) =>
    [...(editsOn(document, changes) ?? [])].map(([uri, edits]) => ({
      textDocument: { uri, version: document.versionOf(uri) },
      edits,
    })),
  );
  return { documentChanges };
}

function canBeMade({ document }: Opened, changes: readonly Change[]): boolean {
  return editsOn(document, changes) !== undefined;
}

function quickFix(
  session: Session,
  opened: Opened,
  { title, changes, finding, isPreferred }: Fix,
  diagnostics: readonly Diagnostic[],
): CodeAction {
  const mended = diagnostics.filter(({ code }) => code === finding?.code);
  const signed = signatureOf(opened, changes);
  return {
    title: signed ? `${title} (${signed})` : title,
    kind: CodeActionKind.QuickFix,
    edit: signed ? confirmed(session, opened, changes, signed) : workspaceEdit([[opened, changes]]),
    ...(mended.length > 0 && { diagnostics: mended }),
    ...(isPreferred && { isPreferred }),
  };
}

/** `signed by kt on 2026-03-14`, if the changes alter a signed visit; comments alter nothing. */
function signatureOf({ book }: Opened, changes: readonly Change[]): string | undefined {
  for (const { start, end, text } of changes) {
    if (start === end && text.trimStart().startsWith('#')) continue;
    const signature = signatureBelow(book, cellAt(book, start));
    if (signature) return signatureInWords(signature);
  }
  return undefined;
}

function signatureInWords({ by, date }: Signature): string {
  return ['signed', by && `by ${by}`, date && `on ${date}`].filter(Boolean).join(' ');
}

/** An edit that the editor shows and asks about before it is made, where it can. */
function confirmed({ client }: Session, opened: Opened, changes: readonly Change[], signed: string): WorkspaceEdit {
  const edit = workspaceEdit([[opened, changes]]);
  if (!client.workspace?.workspaceEdit?.changeAnnotationSupport) return edit;
  return {
    documentChanges: edit.documentChanges.map(({ textDocument, edits }) => ({
      textDocument,
      edits: edits.map((one) => ({ ...one, annotationId: 'signed' })),
    })),
    changeAnnotations: {
      signed: {
        label: `Changes a visit that was ${signed}`,
        description: 'What was signed stays as it is, unless you confirm this.',
        needsConfirmation: true,
      },
    },
  };
}

function wholeFix(opened: Opened): CodeAction[] {
  const changes = fixAll(opened.book).filter((change) => canBeMade(opened, [change]) && !signatureOf(opened, [change]));
  return changes.length === 0
    ? []
    : [{ title: 'Apply all unambiguous fixes', kind: FIX_ALL, edit: workspaceEdit([[opened, changes]]) }];
}

function stepCommand({ uri }: Opened, title: string): Command {
  return { title, command: ADD_STEP_COMMAND, arguments: [uri] };
}

function stepAction(opened: Opened): CodeAction[] {
  const step = addStep(opened.book);
  return step
    ? [{ title: step.title, kind: CodeActionKind.RefactorRewrite, command: stepCommand(opened, step.title) }]
    : [];
}

/** Above the last cell: what to do now, near an even chance both ways, and the command that logs it. */
function lensesOf(opened: Opened, uri: string): CodeLens[] {
  const { book, document } = opened;
  const last = book.workbook.entries.at(-1);
  if (!last) return [];
  const { cell, entry } = last;
  const { start, end } = entry.spans[entry.kind === 'unread' ? ROOT : pathTo(entry.kind)] ?? { start: 0, end: 0 };
  const from = book.split.cells[cell]!.start;
  const range = rangeOn(document, uri, from + start, from + end);
  if (!range) return [];
  const { sentence, ways = [] } = adviceNow(book);
  return [
    { range, command: { title: sentence, command: '' } },
    ...ways.map(({ brief }) => ({ range, command: { title: brief, command: '' } })),
    ...(addStep(book) ? [{ range, command: stepCommand(opened, 'Log Step') }] : []),
  ];
}

/** Appends the cells and places the cursor where the first mark is to be written. */
async function addTo({ connection, client }: Session, opened: Opened): Promise<void> {
  const step = addStep(opened.book);
  if (!step) return;
  if (opened.document.uris.length !== 1)
    throw new ResponseError(ErrorCodes.InvalidRequest, 'A notebook adds its own cells.');
  const { applied } = await connection.workspace.applyEdit({
    label: step.title,
    edit: workspaceEdit([[opened, [step.change]]]),
  });
  if (!applied || !client.window?.showDocument?.support) return;
  const place = placeAfter(opened, step.change, step.cursor);
  await connection.window.showDocument({ uri: opened.uri, takeFocus: true, selection: { start: place, end: place } });
}

/** A position in text that was just inserted, whether or not the client has sent that change yet. */
function placeAfter({ document }: Opened, { start, text }: Change, cursor: number) {
  const from = document.locate(start, start).range.start;
  const lines = text.slice(0, cursor - start).split(/\r?\n/);
  const character = lines.at(-1)!.length + (lines.length === 1 ? from.character : 0);
  return { line: from.line + lines.length - 1, character };
}
