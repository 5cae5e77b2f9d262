/**
 * The probable intention behind an impossible length: the other unit, or the decimal point moved by one place. A slip
 * changes every number, or only the larger one.
 */
import type { Units } from '../model/index.ts';

export interface Slip {
  readonly kind: 'unit' | 'decimal';
  readonly numbers: 'all' | 'largest';
  /** The intended value is the written one times this. */
  readonly factor: number;
}

const MM_PER_INCH = 25.4;

/** The most probable first. Bare numbers are in the machine's units, so only the other unit can be missing. */
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

/** The point that a slip implies, mm, viewer's frame. */
export function meant({ right, up }: Point, { numbers, factor }: Slip): Point {
  const largest = Math.abs(right) >= Math.abs(up) ? 'right' : 'up';
  const by = (part: keyof Point) => (numbers === 'all' || part === largest ? factor : 1);
  return { right: right * by('right'), up: up * by('up') };
}

/** `asked` is used in the message; the others are for the quick fix. */
export type SlipFacts = { readonly asked: string; readonly slip: string } & Readonly<Record<string, string>>;

/** The facts of a finding: `slip` is empty without a probable slip. */
export function slipFacts(slip: Slip | undefined, wording: string): SlipFacts {
  if (!slip) return { slip: '', asked: '' };
  const why = slip.kind === 'unit' ? 'in the other unit' : 'decimal point off by one place';
  return { slip: slip.kind, numbers: slip.numbers, factor: String(slip.factor), asked: ` Is it ${wording} (${why})?` };
}
