/** The cell that opens a visit. */
import { mapping, text } from '../shapes.ts';
import type { Common } from './common.ts';
import type { CellKind } from './kind.ts';

export const session: CellKind<'session', ReturnType<typeof schema>> = {
  subject: 'words',
  skeleton: 'session: ${1:routine service}\ndate: ${2:2026-01-31}\n$0',
  about: ({ title }) => title,
  schema,
  meaning: ({ session: title, reason }) => ({ kind: 'session', title, ...(reason !== undefined && { reason }) }),
};

function schema(common: Common) {
  return mapping(
    {
      session: text('Opens a visit. A station’s first marks in it are as found, its last as left.', 'spring service'),
      reason: text('Why: routine, fault, moved, new tube …', 'routine').optional(),
      ...common,
    },
    'a session cell',
  );
}
