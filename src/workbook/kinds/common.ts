/**
 * The schemas of the keys of any cell: date, person, hours of the machine, photos and corrections. An error in one of
 * them does not invalidate the cell.
 */
import * as z from 'zod';
import type { Fields } from '../fields.ts';
import { list, mapping, oneOrMore, text, documented } from '../shapes.ts';

/** The schemas of these keys, one set for all kinds. */
export type Common = ReturnType<typeof common>;

export function common(fields: Fields) {
  return {
    date: fields
      .date('When it was done: ISO 8601, with or without time and offset.', '2026-03-14', '2026-03-14 10:20')
      .optional(),
    by: text('Who did it.', 'kt').optional(),
    note: text('Anything worth knowing, in Markdown.', 'The knob of B is stiff.').optional(),
    hours: fields
      .hours('The machine’s own hour counter; `new 0 h` where the counter was changed.', ['1234 h', 'new 0 h'])
      .optional(),
    photo: photoSchema(fields).optional(),
    amended: list(amendmentSchema(fields), 'a list of corrections', {
      description: 'Corrections of this cell, the oldest first. The cell shows what applies now.',
      examples: [
        [{ was: { shots: { near: '1.5 left 2.0 down' } }, date: '2026-03-15', by: 'kt', reason: 'left for right' }],
      ],
    }).optional(),
  };
}

/** The keys of these values. */
export const ASIDE: ReadonlySet<string> = new Set<keyof Common>(['date', 'by', 'note', 'hours', 'photo', 'amended']);

function photoSchema(fields: Fields) {
  const file = fields.photoPath('The picture, by its path from this file: PNG, JPEG or WebP.', 'photos/m2-near.jpg');
  const hashed = mapping(
    {
      file,
      sha256: fields
        .sha256(
          'SHA-256 of the picture’s bytes: another picture under this name is an error.',
          'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
        )
        .optional(),
    },
    'a photo such as `{file: photos/m2-near.jpg}`',
  );
  return oneOrMore(
    z.union([file.transform((path): WrittenPhoto => ({ file: path })), hashed], {
      error: () => 'the path of a picture, or `{file: photos/m2-near.jpg, sha256: …}`',
    }),
    'the path of a picture, or a list of them',
    {
      description: 'Photos of what the cell is about; they are shown in the record.',
      examples: ['photos/m2-near.jpg', ['photos/m2-near.jpg', 'photos/m2-far.jpg']],
    },
  );
}

export interface WrittenPhoto {
  readonly file: string;
  readonly sha256?: string | undefined;
}

export const WAS = 'the changed keys as they were, or `nothing`';

/** The former content may be anything that was once typed: it is quoted, not read. */
function amendmentSchema(fields: Fields) {
  const error = () => WAS;
  const was = z.union(
    [z.enum(['nothing'], { error }).transform(() => undefined), z.record(z.string(), z.unknown(), { error })],
    { error },
  );
  return mapping(
    {
      was: documented(was, {
        description:
          'What the cell contained before: only the changed keys, nested as in the cell; `nothing` for a key, or a cell, that was not there.',
        examples: [{ shots: { near: '1.5 left 2.0 down' } }, 'nothing'],
      }),
      date: fields.date('When it was corrected.', '2026-03-15'),
      by: text('Who corrected it.', 'kt'),
      reason: text('Why.', 'written the wrong way round'),
    },
    'a correction such as `{was: {by: kt}, date: 2026-03-15, by: rs, reason: initials mixed up}`',
  );
}
