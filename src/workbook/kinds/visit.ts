/** The cells that frame a visit and need no machine: it begins, something happens, things are ticked off, it is signed. */
import { list, mapping, text, textOrBlank, word } from '../shapes.ts';
import type { Fields } from '../fields.ts';
import { common, type CellKind } from './kind.ts';

export const session: CellKind<ReturnType<typeof sessionSchema>> = {
  schema: sessionSchema,
  meaning: ({ session: title, reason }) => ({ kind: 'session', title, ...(reason !== undefined && { reason }) }),
};

function sessionSchema(fields: Fields) {
  return mapping(
    {
      session: text('Opens a visit. A station’s first marks in it are as found, its last as left.', 'spring service'),
      reason: text('Why: routine, fault, moved, new tube …', 'routine').optional(),
      ...common(fields),
    },
    'a session cell',
  );
}

export const event: CellKind<ReturnType<typeof eventSchema>> = {
  schema: eventSchema,
  meaning: ({ event: what }) => ({ kind: 'event', what }),
};

function eventSchema(fields: Fields) {
  return mapping(
    {
      event: text(
        'The machine was disturbed: moved, new tube, collision … No mark from before it counts as fresh.',
        'collision',
      ),
      ...common(fields),
    },
    'an event cell',
  );
}

export const checks: CellKind<ReturnType<typeof checksSchema>> = {
  schema: checksSchema,
  meaning: ({ checks: title, done, open }) => ({ kind: 'checks', title, done: done ?? [], open: open ?? [] }),
};

function checksSchema(fields: Fields) {
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
      ...common(fields),
    },
    'a checks cell',
  );
}

export const note: CellKind<ReturnType<typeof noteSchema>> = { schema: noteSchema, meaning: () => ({ kind: 'note' }) };

function noteSchema(fields: Fields) {
  const { date, by } = common(fields);
  return mapping(
    { note: text('Anything worth knowing, in Markdown.', 'The rear rail was shimmed by the maker.'), date, by },
    'a note cell',
  );
}

export const release: CellKind<ReturnType<typeof releaseSchema>> = {
  schema: releaseSchema,
  meaning: ({ release: to }) => ({ kind: 'release', to }),
};

function releaseSchema(fields: Fields) {
  return mapping(
    {
      release: word(['in service', 'withdrawn'], 'Signs the machine off. Say who with `by`.'),
      ...common(fields),
      by: textOrBlank('Who signs it off, or withdraws it.', 'kt').optional(),
    },
    'a release cell',
  );
}
