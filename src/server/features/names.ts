/** Names: where they come from, where they are used, and other ones for them. */
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
import type { Opened } from '../documents/desk.ts';
import { workspaceEdit } from './edits.ts';
import { booksOf, familyOf, sourcesOf } from '../documents/family.ts';
import { rangeOn } from '../documents/paper.ts';
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

async function nameUnder({ desk }: Session, { textDocument: { uri }, position }: At): Promise<NameUnder | undefined> {
  const opened = desk.at(uri);
  if (!opened) return undefined;
  await desk.read(opened);
  const offset = opened.paper.offsetAt(uri, position);
  const name = nameAt(opened.book, Math.max(0, cellAt(opened.book, offset)), offset);
  return name && { opened, name };
}

function placeOf({ paper }: Opened, { start, end }: NameUse): Location {
  return paper.locate(start, end);
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
      const found = await nameUnder(session, at);
      if (!found) return [];
      const sources = await sourcesOf(session, found.opened);
      return sources.flatMap((one) =>
        usesOf(one.book, found.name)
          .filter(({ isDefinition }) => isDefinition)
          .map((use) => placeOf(one, use)),
      );
    }),
  );

  connection.onReferences(
    guarded(session, 'references', [], async ({ context, ...at }): Promise<Location[]> => {
      const found = await nameUnder(session, at);
      if (!found) return [];
      const family = await familyOf(session, found.opened);
      return family.flatMap((one) =>
        usesOf(one.book, found.name)
          .filter(({ isDefinition }) => context.includeDeclaration || !isDefinition)
          .map((use) => placeOf(one, use)),
      );
    }),
  );

  connection.onDocumentHighlight(
    guarded(session, 'highlights', [], async (at) => {
      const found = await nameUnder(session, at);
      if (!found) return [];
      const { uri } = at.textDocument;
      return usesOf(found.opened.book, found.name).flatMap(({ start, end, isDefinition }) => {
        const range = rangeOn(found.opened.paper, uri, start, end);
        return range ? [{ range, kind: isDefinition ? (3 as const) : (2 as const) }] : [];
      });
    }),
  );
}

function offerRenames(session: Session): void {
  const { connection } = session;

  connection.onPrepareRename(
    guarded(session, 'rename', null, async (at): Promise<Range | null> => {
      const found = await nameUnder(session, at);
      return (found && rangeOn(found.opened.paper, at.textDocument.uri, found.name.start, found.name.end)) ?? null;
    }),
  );

  // What is wrong with the new name is for the user to read, and no fault of the server's.
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
  const { connection, desk } = session;
  const tokens = guarded(
    session,
    'colours',
    { data: [] },
    async (
      { textDocument: { uri }, range }: { textDocument: { uri: string }; range?: Range },
      token,
    ): Promise<SemanticTokens> => {
      const opened = desk.at(uri);
      if (!opened) return { data: [] };
      await desk.read(opened);
      // Of a long file looked through piece by piece, so that others are answered in between; what was found once is known.
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

/** Where a file of this root is when these, or the folders that hold them, have new names. What leaves the root cannot be borrowed from. */
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
  const found = await nameUnder(session, at);
  if (!found) return null;
  if (to === found.name.name) return { documentChanges: [] };
  const family = await familyOf(session, found.opened);
  const refused = refusal(
    to,
    found.name,
    family.map(({ book }) => book),
  );
  if (refused !== undefined) return { refused };
  return workspaceEdit(
    family.flatMap((one) => {
      const changes = renaming(one.book, found.name, to);
      return changes.length > 0 ? [[one, changes] as const] : [];
    }),
  );
}

/** Names by what they are; of a window where one is given. */
/** Cells: some milliseconds. */
const STRETCH = 100;

function coloured({ book, paper }: Opened, uri: string, range: Range | undefined): SemanticTokens {
  const cells = range
    ? ([
        Math.max(0, cellAt(book, paper.offsetAt(uri, range.start))),
        cellAt(book, paper.offsetAt(uri, range.end)) + 1,
      ] as const)
    : ([0, book.split.cells.length] as const);
  const builder = new SemanticTokensBuilder();
  const places = namesIn(book, ...cells)
    .flatMap((use) => {
      const at = rangeOn(paper, uri, use.start, use.end);
      return at ? [{ ...use, at: at.start }] : [];
    })
    .sort((one, other) => one.start - other.start);
  for (const { at, start, end, role, isDefinition } of places)
    builder.push(at.line, at.character, end - start, TOKEN_TYPES.indexOf(TYPES[role]), isDefinition ? DECLARATION : 0);
  return builder.build();
}
