/** Outline, workspace symbols, folding, selection and links. */
import {
  FoldingRangeKind,
  SymbolKind,
  type DocumentLink,
  type DocumentSymbol,
  type FoldingRange,
  type SelectionRange,
  type WorkspaceSymbol,
} from 'vscode-languageserver';
import { foldsOf, linksOf, nestedOutline, outlineOf, selectionAt, type OutlineNode } from '../../language/index.ts';
import type { Opened } from '../documents/workspace.ts';
import { booksOf } from '../documents/sharers.ts';
import { rangeOn } from '../documents/workbook-document.ts';
import { guarded, type Session } from '../documents/session.ts';

const SYMBOLS: Readonly<Record<OutlineNode['kind'], SymbolKind>> = {
  visit: SymbolKind.Namespace,
  found: SymbolKind.Package,
  moved: SymbolKind.Package,
  machine: SymbolKind.Class,
  limits: SymbolKind.Interface,
  session: SymbolKind.Namespace,
  marks: SymbolKind.Field,
  adjust: SymbolKind.Method,
  care: SymbolKind.Method,
  power: SymbolKind.Number,
  measure: SymbolKind.Number,
  event: SymbolKind.Event,
  checks: SymbolKind.Array,
  note: SymbolKind.String,
  work: SymbolKind.Function,
  release: SymbolKind.Boolean,
  unread: SymbolKind.Null,
};

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one handler for each request
export function offerStructure(session: Session): void {
  const { connection, workspace, host } = session;

  connection.onDocumentSymbol(
    guarded(session, 'outline', [], async ({ textDocument: { uri } }): Promise<DocumentSymbol[]> => {
      const opened = workspace.at(uri);
      if (!opened) return [];
      const isLong = opened.book.split.cells.length > MANY;
      await (isLong ? workspace.read(opened) : workspace.ready(opened));
      // A notebook asks for each of its cells, which has a place for its own line only.
      if (opened.uri !== uri) return outlineOf(opened.book, !isLong).flatMap((item) => symbol(opened, uri, item) ?? []);
      return nestedOutline(opened.book, !isLong).flatMap((node) => symbol(opened, uri, node) ?? []);
    }),
  );

  connection.onWorkspaceSymbol(
    guarded(session, 'symbols', [], async ({ query }): Promise<WorkspaceSymbol[]> => {
      const text = query.toLowerCase();
      const symbols: WorkspaceSymbol[] = [];
      for await (const { book, document } of booksOf(session)) {
        const named = outlineOf(book, false)
          .filter(({ name }) => name.toLowerCase().includes(text))
          .slice(0, MOST);
        symbols.push(
          ...named.map(({ name, kind, from, to }) => ({
            name,
            kind: SYMBOLS[kind],
            location: document.locate(from, to),
            containerName: book.file,
          })),
        );
      }
      return symbols;
    }),
  );

  connection.onFoldingRanges(
    guarded(session, 'folding', [], ({ textDocument: { uri } }): FoldingRange[] => {
      const opened = workspace.at(uri);
      if (!opened) return [];
      return foldsOf(opened.book).flatMap(({ start, end }) => {
        const range = rangeOn(opened.document, uri, start, end);
        return range && range.end.line > range.start.line
          ? [{ startLine: range.start.line, endLine: range.end.line, kind: FoldingRangeKind.Region }]
          : [];
      });
    }),
  );

  connection.onSelectionRanges(
    guarded(session, 'selection', [], ({ textDocument: { uri }, positions }): SelectionRange[] => {
      const opened = workspace.at(uri);
      if (!opened) return [];
      return positions.map(
        (position) =>
          selectionAt(opened.book, opened.document.offsetAt(uri, position)).reduceRight<SelectionRange | undefined>(
            (parent, { start, end }) => {
              const range = rangeOn(opened.document, uri, start, end);
              return range ? { range, ...(parent && { parent }) } : parent;
            },
            undefined,
          ) ?? { range: { start: position, end: position } },
      );
    }),
  );

  connection.onDocumentLinks(
    guarded(session, 'links', [], async ({ textDocument: { uri } }): Promise<DocumentLink[]> => {
      const opened = workspace.at(uri);
      if (!opened) return [];
      await workspace.read(opened);
      return linksOf(opened.book).flatMap(({ start, end, file }) => {
        const range = rangeOn(opened.document, uri, start, end);
        return range ? [{ range, target: host.uriOf({ root: opened.place.root, file }) }] : [];
      });
    }),
  );
}

/** With more cells the outline omits the meaning of each. */
const MANY = 1000;
const MOST = 200;

type OutlineLine = Omit<OutlineNode, 'children'> & Partial<Pick<OutlineNode, 'children'>>;

function symbol(
  opened: Opened,
  uri: string,
  { name, detail, kind, start, end, from, to, children = [] }: OutlineLine,
): DocumentSymbol | undefined {
  const range = rangeOn(opened.document, uri, start, end);
  const selectionRange = rangeOn(opened.document, uri, from, to);
  if (!range || !selectionRange) return undefined;
  const inner = children.flatMap((child) => symbol(opened, uri, child) ?? []);
  return { name, detail, kind: SYMBOLS[kind], range, selectionRange, ...(inner.length > 0 && { children: inner }) };
}
