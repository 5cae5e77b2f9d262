/**
 * What somebody probably meant who wrote a length that cannot be: the other unit, or the decimal point one place aside.
 * A slip changes every number of what was written, or the larger one alone.
 */
import type { Units } from '../model/index.ts';

export interface Slip {
  readonly kind: 'unit' | 'decimal';
  readonly numbers: 'all' | 'largest';
  /** What was read, times this, is what was meant. */
  readonly factor: number;
}

const MM_PER_INCH = 25.4;

/** Likeliest first. Bare numbers are in the machine's units, so only the other one is forgotten. */
export function slips(units: Units): readonly Slip[] {
  const factor = units === 'in' ? 1 / MM_PER_INCH : MM_PER_INCH;
  return [
    { kind: 'unit', numbers: 'all', factor },
    ...[0.1, 10].flatMap((by): Slip[] => [
      { kind: 'decimal', numbers: 'largest', factor: by },
      { kind: 'decimal', numbers: 'all', factor: by },
    ]),
  ];
}

export interface Point {
  readonly right: number;
  readonly up: number;
}

/** mm, viewer's frame. */
export function meant({ right, up }: Point, { numbers, factor }: Slip): Point {
  const largest = Math.abs(right) >= Math.abs(up) ? 'right' : 'up';
  const by = (part: keyof Point) => (numbers === 'all' || part === largest ? factor : 1);
  return { right: right * by('right'), up: up * by('up') };
}

/** `asked` is what a wording says of it; the others are for who offers to write it. */
export type SlipFacts = { readonly asked: string; readonly slip: string } & Readonly<Record<string, string>>;

/** As facts of a finding, for who offers to write it: `slip` is empty where nothing was probably meant. */
export function slipFacts(slip: Slip | undefined, wording: string): SlipFacts {
  if (!slip) return { slip: '', asked: '' };
  const why = slip.kind === 'unit' ? 'in the other unit' : 'decimal point off by one place';
  return { slip: slip.kind, numbers: slip.numbers, factor: String(slip.factor), asked: ` Is it ${wording} (${why})?` };
}
