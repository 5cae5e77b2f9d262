/** The cell that opens a visit. */
import { mapping, text } from '../shapes.ts';
import type { Fields } from '../fields.ts';
import { common } from './aside.ts';
import type { CellKind } from './kind.ts';

export const session: CellKind<'session', ReturnType<typeof schema>> = {
  subject: 'words',
  skeleton: 'session: ${1:routine service}\ndate: ${2:2026-01-31}\n$0',
  about: ({ title }) => title,
  schema,
  meaning: ({ session: title, reason }) => ({ kind: 'session', title, ...(reason !== undefined && { reason }) }),
};

function schema(fields: Fields) {
  return mapping(
    {
      session: text('Opens a visit. A station’s first marks in it are as found, its last as left.', 'spring service'),
      reason: text('Why: routine, fault, moved, new tube …', 'routine').optional(),
      ...common(fields),
    },
    'a session cell',
  );
}
