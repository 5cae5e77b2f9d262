/** The cell that signs the machine off, or withdraws it. */
import { pathTo } from '../../model/index.ts';
import { mapping, textOrBlank, word } from '../shapes.ts';
import type { Common } from './common.ts';
import type { CellKind } from './kind.ts';

export const release: CellKind<'release', ReturnType<typeof schema>> = {
  subject: 'words',
  skeleton: 'release: ${1|in service,withdrawn|}\nby: $0\n',
  about: ({ to }) => to,
  schema,
  meaning({ release: to, witness }, cell) {
    if (cell.inForce?.practice !== undefined) cell.report(pathTo('release'), 'release.practice', {});
    return { kind: 'release', to, ...(witness !== undefined && { witness }) };
  },
};

function schema(common: Common) {
  return mapping(
    {
      release: word(['in service', 'withdrawn'], 'Signs off the machine. Write who with `by`.'),
      ...common,
      by: textOrBlank('Who signs it off, or withdraws it.', 'kt').optional(),
      witness: textOrBlank('A second person, who looked it over.', 'rs').optional(),
    },
    'a release cell',
  );
}
