/** An event that may have affected the machine and was not measured. */
import { mapping, text } from '../shapes.ts';
import type { Common } from './common.ts';
import type { CellKind } from './kind.ts';

export const event: CellKind<'event', ReturnType<typeof schema>> = {
  subject: 'words',
  skeleton: 'event: ${1:moved}\n$0',
  about: ({ what }) => what,
  schema,
  meaning: ({ event: what }) => ({ kind: 'event', what }),
};

function schema(common: Common) {
  return mapping(
    {
      event: text('in service', 'collision'),
      ...common,
    },
    'an event cell',
  );
}
