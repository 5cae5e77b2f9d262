/** The closing sheet in words, the same in the panel and on the command line. */
import type { ClosingSheet } from '../../model/index.ts';
import type { Closing } from './closing.ts';

export function closingInWords(closing: Closing): ClosingSheet {
  const { level, seed, worst, isSaidWithin, yours, shortest, costly } = closing;
  const isTruly = worst.share <= 1;
  return {
    level,
    seed,
    isTruly,
    title: isTruly ? `Level ${level} done: within, truly` : `Level ${level}: not within yet`,
    why: `The hidden machine: ${worst.station} ${worst.limit} ${sizeOf(closing)}, ${shareOf(worst.share)} of the limit. Your marks ${isSaidWithin === isTruly ? 'agree' : isSaidWithin ? 'read as within' : 'do not read as within'}.`,
    yours: yours.points,
    shortest: shortest.points,
    ...(costly && { costly }),
    rows: rowsOf(closing),
    take: [
      'Read near and far before each turn: one mark cannot tell an angle from an offset.',
      'A screw whose effect you have seen once needs no second guess: divide.',
    ],
  };
}

function sizeOf({ worst: { limit, value } }: Closing): string {
  if (!Number.isFinite(value)) return 'is lost';
  return limit === 'plumb' ? `${(1000 * value).toFixed(1)} mrad` : mm(value);
}

function shareOf(share: number): string {
  return Number.isFinite(share) ? `${Math.round(100 * share)} %` : 'many times';
}

function rowsOf({ yours, shortest, asks, moves, right, medianMisread, medianSurprise }: Closing): ClosingSheet['rows'] {
  const row = (name: string, own: string | number, other: string | number = '–') => ({
    name,
    yours: String(own),
    shortest: String(other),
  });
  return [
    row('adjustments', yours.adjustments, shortest.adjustments),
    row('tapes', yours.tapes, shortest.tapes),
    row('advice asked', asks),
    row('moves that helped', `${right} of ${moves}`),
    row('reading, median error', medianMisread === undefined ? '–' : mm(medianMisread)),
    row('expecting, median error', medianSurprise === undefined ? '–' : mm(medianSurprise)),
  ];
}

function mm(value: number): string {
  return `${value.toFixed(1)} mm`;
}
