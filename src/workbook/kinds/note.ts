/** A note in a cell without another kind. */
import { mapping, text } from '../shapes.ts';
import type { Common } from './common.ts';
import type { CellKind } from './kind.ts';

export const note: CellKind<'note', ReturnType<typeof schema>> = {
  subject: 'words',
  skeleton: 'note: |\n  $0\n',
  about: () => '',
  schema,
  meaning: () => ({ kind: 'note' }),
};

function schema(common: Common) {
  const { note: _, ...others } = common;
  return mapping(
    { note: text('Anything worth knowing, in Markdown.', 'The rear rail was shimmed by the maker.'), ...others },
    'a note cell',
  );
}
