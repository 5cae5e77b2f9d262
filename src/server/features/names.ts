/** Names: definition, references, rename, and semantic tokens. */
import {
  ErrorCodes,
  ResponseError,
  SemanticTokensBuilder,
  type Location,
  type Range,
  type SemanticTokens,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import {
  cellAt,
  nameAt,
  namesIn,
  refiling,
  refusal,
  renaming,
  usesOf,
  type NameUse,
  type Role,
} from '../../language/index.ts';
import type { Opened } from '../documents/workspace.ts';
import { workspaceEdit } from './edits.ts';
import { booksOf, sharersOf, sourcesOf } from '../documents/sharers.ts';
import { rangeOn } from '../documents/workbook-document.ts';
import { guarded, type Session } from '../documents/session.ts';

const TYPES: Readonly<Record<Role, string>> = {
  machine: 'class',
  station: 'variable',
  stop: 'enumMember',
  mount: 'type',
  screw: 'property',
};
export const TOKEN_TYPES = [...new Set(Object.values(TYPES))];
const DECLARATION = 1;

interface At {
  readonly textDocument: { readonly uri: string };
  readonly position: { readonly line: number; readonly character: number };
}

interface NameUnder {
  readonly opened: Opened;
  readonly name: NameUse;
}

async function nameUnder(
  { workspace }: Session,
  { textDocument: { uri }, position }: At,
): Promise<NameUnder | undefined> {
  const opened = workspace.at(uri);
  if (!opened) return undefined;
  await workspace.read(opened);
  const offset = opened.document.offsetAt(uri, position);
  const name = nameAt(opened.book, Math.max(0, cellAt(opened.book, offset)), offset);
  return name && { opened, name };
}

function placeOf({ document }: Opened, { start, end }: NameUse): Location {
  return document.locate(start, end);
}

export function offerNames(session: Session): void {
  offerUses(session);
  offerRenames(session);
  offerColours(session);
}

function offerUses(session: Session): void {
  const { connection } = session;

  connection.onDefinition(
    guarded(session, 'definition', [], async (at): Promise<Location[]> => {
      const named = await nameUnder(session, at);
      if (!named) return [];
      const sources = await sourcesOf(session, named.opened);
      return sources.flatMap((one) =>
        usesOf(one.book, named.name)
          .filter(({ isDefinition }) => isDefinition)
          .map((use) => placeOf(one, use)),
      );
    }),
  );

  connection.onReferences(
    guarded(session, 'references', [], async ({ context, ...at }): Promise<Location[]> => {
      const named = await nameUnder(session, at);
      if (!named) return [];
      const sharers = await sharersOf(session, named.opened);
      return sharers.flatMap((one) =>
        usesOf(one.book, named.name)
          .filter(({ isDefinition }) => context.includeDeclaration || !isDefinition)
          .map((use) => placeOf(one, use)),
      );
    }),
  );

  connection.onDocumentHighlight(
    guarded(session, 'highlights', [], async (at) => {
      const named = await nameUnder(session, at);
      if (!named) return [];
      const { uri } = at.textDocument;
      return usesOf(named.opened.book, named.name).flatMap(({ start, end, isDefinition }) => {
        const range = rangeOn(named.opened.document, uri, start, end);
        return range ? [{ range, kind: isDefinition ? (3 as const) : (2 as const) }] : [];
      });
    }),
  );
}

function offerRenames(session: Session): void {
  const { connection } = session;

  connection.onPrepareRename(
    guarded(session, 'rename', null, async (at): Promise<Range | null> => {
      const named = await nameUnder(session, at);
      return (named && rangeOn(named.opened.document, at.textDocument.uri, named.name.start, named.name.end)) ?? null;
    }),
  );

  // An invalid new name is reported to the user and is not an error of the server.
  connection.onRenameRequest(async ({ newName, ...at }, token): Promise<WorkspaceEdit | null> => {
    const answer = await guarded(session, 'rename', null, () => rename(session, at, newName))(undefined, token);
    if (answer && 'refused' in answer) throw new ResponseError(ErrorCodes.InvalidParams, answer.refused);
    return answer;
  });

  connection.workspace.onWillRenameFiles(
    guarded(session, 'renamed files', null, async ({ files }): Promise<WorkspaceEdit | null> => {
      const changed: (readonly [Opened, ReturnType<typeof refiling>])[] = [];
      for await (const one of booksOf(session)) {
        const changes = refiling(one.book, movedIn(session, one.place.root, files));
        if (changes.length > 0) changed.push([one, changes]);
      }
      return workspaceEdit(changed);
    }),
  );
}

function offerColours(session: Session): void {
  const { connection, workspace } = session;
  const tokens = guarded(
    session,
    'colours',
    { data: [] },
    async (
      { textDocument: { uri }, range }: { textDocument: { uri: string }; range?: Range },
      token,
    ): Promise<SemanticTokens> => {
      const opened = workspace.at(uri);
      if (!opened) return { data: [] };
      await workspace.read(opened);
      // A long file is searched in pieces, so that other requests are answered in between. The results are cached.
      for (
        let cell = 0;
        !range && cell < opened.book.split.cells.length && !token.isCancellationRequested;
        cell += STRETCH
      ) {
        namesIn(opened.book, cell, cell + STRETCH);
        await session.host.turn();
      }
      return coloured(opened, uri, range);
    },
  );
  connection.languages.semanticTokens.on(tokens);
  connection.languages.semanticTokens.onRange(tokens);
}

/**
 * The new path of a file of this root after files or folders are renamed. A file that leaves the root keeps its old
 * path, because machines cannot be taken from there.
 */
function movedIn(
  { host }: Session,
  root: string,
  files: readonly { readonly oldUri: string; readonly newUri: string }[],
): (file: string) => string {
  const moves = files
    .map(({ oldUri, newUri }) => [host.placeOf(oldUri), host.placeOf(newUri)] as const)
    .filter(([from, to]) => from.root === root && to.root === root);
  return (file) => {
    const move = moves.find(([from]) => file === from.file || file.startsWith(`${from.file}/`));
    return move ? move[1].file + file.slice(move[0].file.length) : file;
  };
}

async function rename(
  session: Session,
  at: At,
  to: string,
): Promise<WorkspaceEdit | { readonly refused: string } | null> {
  const named = await nameUnder(session, at);
  if (!named) return null;
  if (to === named.name.name) return { documentChanges: [] };
  const sharers = await sharersOf(session, named.opened);
  const refused = refusal(
    to,
    named.name,
    sharers.map(({ book }) => book),
  );
  if (refused !== undefined) return { refused };
  return workspaceEdit(
    sharers.flatMap((one) => {
      const changes = renaming(one.book, named.name, to);
      return changes.length > 0 ? [[one, changes] as const] : [];
    }),
  );
}

/** Cells searched at a time, which takes some milliseconds. */
const STRETCH = 100;

function coloured({ book, document }: Opened, uri: string, range: Range | undefined): SemanticTokens {
  const cells = range
    ? ([
        Math.max(0, cellAt(book, document.offsetAt(uri, range.start))),
        cellAt(book, document.offsetAt(uri, range.end)) + 1,
      ] as const)
    : ([0, book.split.cells.length] as const);
  const builder = new SemanticTokensBuilder();
  const places = namesIn(book, ...cells)
    .flatMap((use) => {
      const at = rangeOn(document, uri, use.start, use.end);
      return at ? [{ ...use, at: at.start }] : [];
    })
    .sort((one, other) => one.start - other.start);
  for (const { at, start, end, role, isDefinition } of places)
    builder.push(at.line, at.character, end - start, TOKEN_TYPES.indexOf(TYPES[role]), isDefinition ? DECLARATION : 0);
  return builder.build();
}
