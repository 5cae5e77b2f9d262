/** Checks that are done, and those that are still open. */
import { list, mapping, text } from '../shapes.ts';
import type { Common } from './common.ts';
import type { CellKind } from './kind.ts';

export const checks: CellKind<'checks', ReturnType<typeof schema>> = {
  subject: 'words',
  skeleton: 'checks: ${1:make safe}\ndone:\n  - ${2:eyewear on}\n$0',
  about: ({ title }) => title,
  schema,
  meaning: ({ checks: title, done, open }) => ({ kind: 'checks', title, done: done ?? [], open: open ?? [] }),
};

function schema(common: Common) {
  const item = text('What is checked.', 'eyewear on');
  return mapping(
    {
      checks: text('A list of checks, and its name.', 'make safe'),
      done: list(item, 'a list of texts', {
        description: 'What was checked.',
        examples: [['eyewear on', 'extraction on']],
      }).optional(),
      open: list(item, 'a list of texts', {
        description: 'What is still to be checked.',
        examples: [['fire watch']],
      }).optional(),
      ...common,
    },
    'a checks cell',
  );
}
