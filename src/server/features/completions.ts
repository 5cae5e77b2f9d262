/** Completion requests. */
import {
  CompletionItemKind,
  InsertTextFormat,
  MarkupKind,
  type CompletionItem,
  type CompletionList,
} from 'vscode-languageserver';
import { nameInYaml } from '../../cells/index.ts';
import { completionsAt, createGuide, type Completion } from '../../language/index.ts';
import { rangeOn, type WorkbookDocument } from '../documents/workbook-document.ts';
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
  const { connection, workspace, client } = session;
  const guide = createGuide();
  const snippets = client.textDocument?.completion?.completionItem?.snippetSupport === true;

  connection.onCompletion(
    guarded(
      session,
      'completion',
      null,
      async ({ textDocument: { uri }, position }): Promise<CompletionList | null> => {
        const opened = workspace.at(uri);
        if (!opened) return null;
        await workspace.soon(opened);
        const { book, document } = opened;
        const completions = completionsAt(book, guide, document.offsetAt(uri, position), session.host.today());
        return {
          isIncomplete: false,
          items: completions.flatMap(
            (one, k) => item(withName(one, session.settings.by), k, { document, uri, snippets }) ?? [],
          ),
        };
      },
    ),
  );
}

interface Where {
  readonly document: WorkbookDocument;
  readonly uri: string;
  readonly snippets: boolean;
}

/** Keeps the order of the completions by `sortText`. */
function item(
  { label, kind, start, end, text, isSnippet, detail, documentation }: Completion,
  order: number,
  { document, uri, snippets }: Where,
): CompletionItem | undefined {
  const range = rangeOn(document, uri, start, end);
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

/** A new session or release has the name of the user, as a placeholder that can be typed over. */
function withName(completion: Completion, name: string): Completion {
  const { kind, text, isSnippet } = completion;
  if (kind !== 'cell' || !isSnippet || name === '') return completion;
  const by = `by: \${9:${nameInYaml(name).replace(/[\\$}]/g, '\\$&')}}`;
  if (/^release:/.test(text)) return { ...completion, text: text.replace(/^by: (?:\$0|\$\{\d+:\})$/m, () => by) };
  return /^session:/.test(text) ? { ...completion, text: text.replace(/\$0$/, () => `${by}\n$0`) } : completion;
}

/** A snippet as plain text, each choice replaced by its first option. */
function plain(snippet: string): string {
  return snippet
    .replace(/\$\{\d+\|([^,|]*)[^}]*\}/g, '$1')
    .replace(/\$\{\d+:([^}]*)\}/g, '$1')
    .replace(/\$\d+/g, '')
    .replace(/\\([\\$}])/g, '$1');
}
