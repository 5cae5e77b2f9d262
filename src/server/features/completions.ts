/** Completion, in the protocol's words. */
import {
  CompletionItemKind,
  InsertTextFormat,
  MarkupKind,
  type CompletionItem,
  type CompletionList,
} from 'vscode-languageserver';
import { completionsAt, createGuide, type Completion } from '../../language/index.ts';
import { rangeOn, type Paper } from '../documents/paper.ts';
import { guarded, type Session } from '../documents/session.ts';

const KIND: Readonly<Record<Completion['kind'], CompletionItemKind>> = {
  cell: CompletionItemKind.Snippet,
  key: CompletionItemKind.Property,
  name: CompletionItemKind.Variable,
  word: CompletionItemKind.EnumMember,
  unit: CompletionItemKind.Unit,
  value: CompletionItemKind.Value,
};

export function offerCompletions(session: Session): void {
  const { connection, desk, client } = session;
  const guide = createGuide();
  const snippets = client.textDocument?.completion?.completionItem?.snippetSupport === true;

  connection.onCompletion(
    guarded(
      session,
      'completion',
      null,
      async ({ textDocument: { uri }, position }): Promise<CompletionList | null> => {
        const opened = desk.at(uri);
        if (!opened) return null;
        await desk.soon(opened);
        const { book, paper } = opened;
        const found = completionsAt(book, guide, paper.offsetAt(uri, position), session.host.today());
        return { isIncomplete: false, items: found.flatMap((one, k) => item(one, k, { paper, uri, snippets }) ?? []) };
      },
    ),
  );
}

interface Where {
  readonly paper: Paper;
  readonly uri: string;
  readonly snippets: boolean;
}

/** The order is ours: likeliest first. */
function item(
  { label, kind, start, end, text, isSnippet, detail, documentation }: Completion,
  order: number,
  { paper, uri, snippets }: Where,
): CompletionItem | undefined {
  const range = rangeOn(paper, uri, start, end);
  if (!range) return undefined;
  const asSnippet = isSnippet && snippets;
  return {
    label,
    kind: KIND[kind],
    sortText: String(order).padStart(4, '0'),
    filterText: label,
    insertTextFormat: asSnippet ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
    textEdit: { range, newText: isSnippet && !snippets ? plain(text) : text },
    ...(detail !== undefined && { detail }),
    ...(documentation !== undefined && { documentation: { kind: MarkupKind.Markdown, value: documentation } }),
  };
}

/** A snippet with its first choices taken. */
function plain(snippet: string): string {
  return snippet
    .replace(/\$\{\d+\|([^,|]*)[^}]*\}/g, '$1')
    .replace(/\$\{\d+:([^}]*)\}/g, '$1')
    .replace(/\$\d+/g, '')
    .replace(/\\([\\$}])/g, '$1');
}
