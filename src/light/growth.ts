/**
 * Marks that grow along the path by more than the beam. A burn extends to where the irradiance still marks tape: at one
 * pulse a wider beam is weaker, so its burn grows by less than the beam. A test that assumes growth in proportion is
 * therefore conservative (for a Gaussian beam the burn is w·√(½ ln(peak/threshold)) wide).
 *
 * Burns of different pulses differ: marks are compared within one cell, or within a visit where the same pulse is
 * written beside both. Diameters mm.
 */
import type { LimitsEntry, LogEntry, Machine, MarksEntry, Shot } from '../model/index.ts';
import { widthOn } from './diameter-on.ts';
import type { Width } from './widths-on.ts';

/** A mark with a size, or the mean size of several of one shot. */
export interface SizedMark {
  readonly station: string;
  readonly shot: Shot;
  /** Index of its entry. */
  readonly order: number;
  readonly size: number;
  /** Distance from the tube's exit, and the beam's 1/e² diameter there. */
  readonly along: number;
  readonly diameter: number;
}

/** Two marks of one pulse of which the far one is too large. */
export interface Growth {
  readonly near: SizedMark;
  readonly far: SizedMark;
  /** Maximum size of the far mark, from the near one. */
  readonly expected: number;
}

/**
 * Relative standard uncertainty of one burn's diameter at one pulse: tape, smoke and tube differ (common practice, no
 * source).
 */
const BURN = 0.1;
/**
 * Relative standard uncertainty of the growth of the beam: a data sheet's divergence is good to a fifth (common
 * practice, no source).
 */
const DIVERGENCE = 0.2;
/** Coverage factor: chance exceeds it once in forty pairs. */
const PLAINLY = 2;
/** mm: the default step of reading, without a limits cell. */
const RESOLUTION = 0.5;

/** The pair of each cell that grows most, if by more than chance; in the order of the log. */
export function growthsIn(entries: readonly LogEntry[]): Growth[] {
  let widths: Widths | undefined;
  let resolution = RESOLUTION;
  let pulseMarks: { readonly pulse: string; readonly mark: SizedMark }[] = [];
  return entries.flatMap(({ entry }, order) => {
    if (entry.kind === 'machine') widths = new Widths(entry.machine);
    if (entry.kind === 'limits') resolution = resolutionOf(entry);
    if (ENDS.has(entry.kind)) pulseMarks = [];
    if (entry.kind !== 'marks' || !widths) return [];
    const own = sizedIn(entry, widths, order);
    if (own.length === 0) return [];
    const pulse = JSON.stringify(entry.pulse);
    const before = entry.pulse ? pulseMarks.filter((one) => one.pulse === pulse).map(({ mark }) => mark) : [];
    if (entry.pulse) pulseMarks = [...pulseMarks, ...own.map((mark) => ({ pulse, mark }))].slice(-MOST);
    const pairs = own.flatMap((mark) =>
      [...before, ...own]
        .filter((other) => other.order < order || other.along < mark.along)
        .map((other) => inOrder(mark, other)),
    );
    const worst = pairs.map((pair) => significance(pair, resolution)).toSorted((one, other) => other.by - one.by)[0];
    return worst && worst.by > PLAINLY ? [worst.growth] : [];
  });
}

/** Cells that end a visit, or change the width of the beam. */
const ENDS: ReadonlySet<string> = new Set(['machine', 'session', 'release']);

/** Maximum number of marks of one pulse: no visit has more; a file may. */
const MOST = 64;

function resolutionOf({ limits }: LimitsEntry): number {
  return limits.reading.resolution;
}

/** Cached widths of the beam of one machine on its tapes: a log returns to the same few places. */
class Widths {
  private readonly machine: Machine;
  private readonly cache = new Map<string, Width | undefined>();

  constructor(machine: Machine) {
    this.machine = machine;
  }

  on(station: string, { carriages }: Shot): Width | undefined {
    const place = `${station} ${JSON.stringify(carriages)}`;
    if (!this.cache.has(place))
      this.cache.set(place, this.isBehindLens(station) ? undefined : widthOn(this.machine, station, carriages));
    return this.cache.get(place);
  }

  /** Behind the lens tape is shot with the lens out, but the known width is that with the lens. */
  private isBehindLens(station: string): boolean {
    const { path } = this.machine;
    const lens = path.findIndex(({ kind }) => kind === 'lens');
    return lens >= 0 && path.findIndex(({ name }) => name === station) > lens;
  }
}

function sizedIn({ station, shots }: MarksEntry, widths: Widths, order: number): SizedMark[] {
  return shots.slice(0, MOST).flatMap((shot): SizedMark[] => {
    const sizes = shot.marks.flatMap(({ size }) => size ?? []);
    const width = shot.height > 0 || sizes.length === 0 ? undefined : widths.on(station, shot);
    if (!width) return [];
    return [
      {
        station,
        shot,
        order,
        size: sizes.reduce((sum, size) => sum + size, 0) / sizes.length,
        along: width.along,
        diameter: width.diameter,
      },
    ];
  });
}

function inOrder(one: SizedMark, other: SizedMark): { readonly near: SizedMark; readonly far: SizedMark } {
  return one.along < other.along ? { near: one, far: other } : { near: other, far: one };
}

/** The number of standard uncertainties by which the far mark is wider than the near one explains (JCGM 100, 5.1). */
function significance(
  { near, far }: { readonly near: SizedMark; readonly far: SizedMark },
  resolution: number,
): { readonly growth: Growth; readonly by: number } {
  const ratio = Math.max(1, far.diameter / near.diameter);
  const expected = ratio * near.size;
  // Both edges of a burn are read to the step.
  const reading = resolution / Math.sqrt(6);
  const u = Math.hypot(
    reading,
    ratio * reading,
    BURN * far.size,
    BURN * expected,
    DIVERGENCE * (ratio - 1) * near.size,
  );
  return { growth: { near, far, expected }, by: (far.size - expected) / u };
}
