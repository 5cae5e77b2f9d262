/** The lenses that fire for the blanks of a practice machine. */
import { CodeLens, l10n, Range, type TextDocument } from 'vscode';
import type { Requests } from '../../model/index.ts';
import { Command } from '../command.ts';
import { workbookOf } from '../shown.ts';

type Blanks = NonNullable<Requests['alignbook/blanks']['answer']>;

/** One lens for each blank, above its line. */
export async function fireLenses(
  blanksIn: (uri: string) => Promise<Blanks | undefined>,
  document: TextDocument,
): Promise<CodeLens[]> {
  const uri = workbookOf(document).toString();
  const blanks = (await blanksIn(uri).catch(() => undefined)) ?? [];
  return blanks
    .filter((blank) => blank.uri === document.uri.toString())
    .map(
      ({ place, range: { start }, ...blank }) =>
        new CodeLens(new Range(start.line, 0, start.line, 0), {
          title: l10n.t('Fire: {0}', nameOf(blank)),
          command: Command.fire,
          arguments: [uri, place],
        }),
    );
}

export function nameOf({ station, label }: { readonly station: string; readonly label: string }): string {
  return label === 'here' ? station : `${station} ${label}`;
}
