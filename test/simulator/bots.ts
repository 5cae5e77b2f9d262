/**
 * Three who align a practice machine: one by the program's advice, one by habit, one by guess. Each reads marks with
 * the reading error that the workbook states. The hidden machine is used for what a hand does and an eye sees; the one
 * by habit also knows from it which way each screw moves a mark.
 *
 * mm, turns (positive = in).
 */
import type { AdjustEntry, Limits, LogEntry, Machine, Step } from '../../src/model/index.ts';
import { lookup, viewer } from '../../src/model/index.ts';
import {
  burnAt,
  hiddenMachine,
  stateAfter,
  worstUtilisation,
  type Burn,
  type FiredAt,
  type Hidden,
  type HiddenState,
} from '../../src/simulator/index.ts';
import { threads } from '../../src/machine/index.ts';
import { expressions, createReader } from '../../src/workbook/index.ts';
import { createBook } from '../../src/language/book/book.ts';
import type { Book } from '../../src/language/book/book-type.ts';
import { addStep } from '../../src/language/edits/add-step.ts';
import { withMark } from '../../src/language/edits/place-mark.ts';
import { burnsAtEnd } from '../../src/language/practice/fire.ts';
import { practiceWorkbook } from '../../src/language/practice/new-practice.ts';
import { random, type Random } from '../simulation/random.ts';
import { inWords } from '../simulation/technician.ts';

/** How a session ended, and what it took. */
export interface Ended {
  readonly end: 'within' | 'blocked' | 'going on';
  /** The largest true utilisation as found and at the end; 1 is just within. */
  readonly asFound: number;
  readonly worst: number;
  readonly where: string;
  /** Each screw turned and each part shifted is one. */
  readonly adjustments: number;
  readonly tapes: number;
  /** Adjustments and tapes until it was truly within and stayed so; infinite if it is not at the end. */
  readonly cost: number;
  readonly text: string;
  /** Why it is blocked, or what was to be done next. */
  readonly reason?: string;
  /** Moves of the tube or a block, and turns over a quarter, while a mark was unexplained. */
  readonly risks: number;
}

const tables = { threads, expressions };
const reader = createReader(tables);
const MOST_ROUNDS = 60;
/** While a mark is unexplained a screw is turned by no more than the larger of this and its last turn. */
const CAREFUL_TURN = 1 / 4;

/** The reading of a burn by the workbook's own reading error. */
function eye(draw: Random, { reading: { resolution, placing } }: Limits) {
  const part = (mm: number) => Math.round((mm + placing * draw.normal()) / resolution) * resolution + 0;
  return (burn: Burn) => (burn.none ? undefined : { right: part(burn.right), up: part(burn.up) });
}

function parts(entries: readonly LogEntry[]): { machine: Machine; limits: Limits } {
  const machine = entries.map(({ entry }) => entry).findLast((entry) => entry.kind === 'machine');
  const limits = entries.map(({ entry }) => entry).findLast((entry) => entry.kind === 'limits');
  return { machine: machine!.machine, limits: limits!.limits };
}

/** A quarter more than a limit allows is still counted as within, as for every simulated machine. */
export const LENIENT = 1.25;

/** The work after which a machine is truly within and stays so. */
class Cost {
  #reached: number | undefined;

  /** After each move. */
  see(worst: number, spent: number): void {
    if (worst > LENIENT) this.#reached = undefined;
    else this.#reached ??= spent;
  }

  get value(): number {
    return this.#reached ?? Infinity;
  }
}

/** Follows the advice of the program, in the workbook itself. */
export function byAdvice(seed: number, level: number): Ended {
  const draw = random(Math.imul(seed + 1, 0x9e3779b1) ^ level);
  const book = createBook(
    tables,
    'practice.alignbook.yaml',
    new Map(),
    practiceWorkbook(tables, { seed, level }),
    reader,
  );
  book.fold();
  const { machine, limits } = parts(book.workbook.entries);
  const hidden = hiddenMachine(machine, machine.practice!);
  const read = eye(draw, limits);
  const worst = () => worstUtilisation(hidden, stateAfter(hidden, book.workbook.entries), limits)!;
  const asFound = worst().share;
  let [adjustments, tapes, risks] = [0, 0, 0];
  const last = new Map<string, number>();
  const cost = new Cost();
  for (let round = 0; ; round++) {
    const { verdict, steps, unexplained } = book.evaluation();
    const next = addStep(book);
    if (verdict !== 'continue' || round === MOST_ROUNDS || !next) {
      const { share, station, limit } = worst();
      const end = verdict === 'continue' ? 'going on' : verdict;
      const reason = steps[0]?.say;
      return {
        end,
        asFound,
        worst: share,
        where: `${station} ${limit}`,
        adjustments,
        tapes,
        cost: cost.value,
        risks,
        text: book.text,
        ...(end !== 'within' && reason !== undefined && { reason }),
      };
    }
    for (const step of upToShot(steps)) {
      if (step.kind !== 'turn' && step.kind !== 'shift') continue;
      adjustments++;
      if (unexplained > 0 && isRisky(step, last)) risks++;
      if (step.kind === 'turn') last.set(`${step.part} ${step.screw}`, Math.abs(step.turns));
    }
    change(book, book.text + next.change.text);
    cost.see(worst().share, adjustments + tapes);
    tapes += fill(book, machine, read);
  }
}

function isRisky(step: Extract<Step, { kind: 'turn' | 'shift' }>, last: ReadonlyMap<string, number>): boolean {
  if (step.kind === 'shift') return true;
  return Math.abs(step.turns) > Math.max(CAREFUL_TURN, last.get(`${step.part} ${step.screw}`) ?? 0) + 1e-9;
}

function upToShot(steps: readonly Step[]): readonly Step[] {
  const shot = steps.findIndex(({ kind }) => kind === 'shoot');
  return shot < 0 ? steps : steps.slice(0, shot);
}

function change(book: Book, text: string): void {
  book.change(text);
  book.fold();
}

/** Reads the tapes of the blanks and writes the marks. @returns how many */
function fill(book: Book, machine: Machine, read: ReturnType<typeof eye>): number {
  const burns = burnsAtEnd(book);
  if (burns.length === 0) return 0;
  const { cell } = burns[0]!.place;
  const { spans } = book.workbook.entries.at(-1)!.entry;
  const { start, text } = book.split.cells[cell]!;
  const filled = burns
    .map(({ place, burn, station }) => {
      const mark = read(burn);
      const index = machine.path.findIndex(({ name }) => name === station);
      const runs = index === 0 ? machine.source.fires : machine.path[index - 1]!.sends!;
      return withMark(text, spans[place.path]!, mark ? inWords(mark, runs, 'mm') : 'none');
    })
    .toSorted((one, other) => other.start - one.start)
    .reduce((sofar, one) => sofar.slice(0, one.start) + one.text + sofar.slice(one.end), text);
  change(book, book.text.slice(0, start) + filled + book.text.slice(start + text.length));
  return burns.length;
}

/** A machine on which somebody works without the program. */
class Bench {
  readonly hidden: Hidden;
  readonly limits: Limits;
  readonly machine: Machine;
  readonly asFound: number;
  adjustments = 0;
  tapes = 0;
  readonly #cost = new Cost();
  readonly #entries: LogEntry[];
  readonly #read: ReturnType<typeof eye>;

  constructor(seed: number, level: number, draw: Random) {
    const text = practiceWorkbook(tables, { seed, level });
    this.#entries = [...reader.read(text, { file: 'practice.alignbook.yaml', files: new Map() }).entries];
    const { machine, limits } = parts(this.#entries);
    this.machine = machine;
    this.limits = limits;
    this.hidden = hiddenMachine(machine, machine.practice!);
    this.#read = eye(draw, limits);
    this.asFound = this.worst.share;
  }

  get state(): HiddenState {
    return stateAfter(this.hidden, this.#entries);
  }

  get worst() {
    return worstUtilisation(this.hidden, this.state, this.limits)!;
  }

  /** Nobody who works by hand turns a screw with its nut tight. */
  adjust(part: string, change: Partial<Pick<AdjustEntry, 'turns' | 'shift'>>): void {
    const entry: AdjustEntry = { kind: 'adjust', part, turns: {}, lock: 'loose', ...change, spans: {} };
    this.#entries.push({ cell: this.#entries.length, entry });
    this.adjustments += 1;
    this.#cost.see(this.worst.share, this.adjustments + this.tapes);
  }

  /** The reading, or the true mark however far off where there is none: experience knows where it went. */
  shoot(at: FiredAt): { right: number; up: number } {
    this.tapes += 1;
    return this.#read(burnAt(this.hidden, this.state, at, [this.tapes])!) ?? this.there(this.state, at);
  }

  there(state: HiddenState, at: FiredAt): { right: number; up: number } {
    const path = this.machine.path.map((element) => ({ ...element, aperture: 1e6 }));
    const burn = burnAt({ ...this.hidden, machine: { ...this.machine, path } }, state, at, [0])!;
    return burn.none ? { right: 0, up: 0 } : burn;
  }

  /** What a turn of a screw does to a mark, a turn. */
  effect(mirror: number, screw: string, at: FiredAt): { right: number; up: number } {
    const { state } = this;
    const effect = this.hidden.screws.get(`${mirror} ${screw}`)!.effect;
    const poses = state.poses.map((pose, k) =>
      k === mirror
        ? {
            piston: pose.piston + PROBE * effect.piston,
            right: pose.right + PROBE * effect.right,
            up: pose.up + PROBE * effect.up,
          }
        : pose,
    );
    const [one, other] = [this.there(state, at), this.there({ ...state, poses }, at)];
    return { right: (other.right - one.right) / PROBE, up: (other.up - one.up) / PROBE };
  }

  ended(end: Ended['end']): Ended {
    const { share, station, limit } = this.worst;
    const { asFound, adjustments, tapes } = this;
    return {
      end,
      asFound,
      worst: share,
      where: `${station} ${limit}`,
      adjustments,
      tapes,
      cost: this.#cost.value,
      risks: 0,
      text: '',
    };
  }
}

const PROBE = 0.1;
/** An eighth of an inch at the rim of a knob of 14 mm, in turns. */
const FIRST_TURN = 3.175 / (Math.PI * 14);
const MOST_ADJUSTMENTS = 120;

interface Stage {
  readonly station: number;
  readonly places: readonly FiredAt[];
}

/** Station by station: where it has a travel, near and far; behind two travels both diagonals. */
function stagesOf({ path }: Machine): Stage[] {
  const travels: { element: string; near: number; far: number }[] = [];
  return path.flatMap(({ name, stops }, station): Stage[] => {
    if (stops) travels.push({ element: name, near: stops['near']!.value, far: stops['far']!.value });
    const at = (...ends: readonly ('near' | 'far')[]): FiredAt => ({
      station: name,
      height: 0,
      carriages: Object.fromEntries(travels.map((travel, k) => [travel.element, travel[ends[k] ?? 'near']])),
    });
    if (!stops) return [{ station, places: [at()] }];
    if (travels.length === 1) return [{ station, places: [at('near'), at('far')] }];
    return [
      { station, places: [at('near', 'near'), at('far', 'far')] },
      { station, places: [at('near', 'far'), at('far', 'near')] },
    ];
  });
}

type Mark = { readonly right: number; readonly up: number };

function measures(marks: readonly Mark[]) {
  return {
    centre: Math.max(...marks.map(({ right, up }) => Math.hypot(right, up))),
    spread: marks.length > 1 ? Math.hypot(marks[0]!.right - marks[1]!.right, marks[0]!.up - marks[1]!.up) : 0,
  };
}

/** Today's practice: one screw a little at a time, the right one and the right way, halved when it went too far. */
export function byHabit(seed: number, level: number): Ended {
  const bench = new Bench(seed, level, random(Math.imul(seed + 2, 0x85ebca6b) ^ level));
  const stages = stagesOf(bench.machine);
  const strides = new Map<string, { turns: number; side: number }>();
  let reached = 0;
  while (reached < stages.length) {
    if (bench.adjustments >= MOST_ADJUSTMENTS) return bench.ended('going on');
    const stage = stages[reached]!;
    const { name, stops } = bench.machine.path[stage.station]!;
    const { centre = Infinity, spread = Infinity } = lookup(bench.limits.stations, name) ?? {};
    const marks = stage.places.map((place) => bench.shoot(place));
    const measured = measures(marks);
    if (measured.spread > spread || (!stops && stage.station > 0 && measured.centre > centre)) {
      turnScrew(bench, stage, marks, strides);
      reached = stages.findIndex(({ station }) => station === stage.station);
    } else if (measured.centre > centre) {
      shiftTube(bench, stage, marks);
      reached = 0;
    } else reached += 1;
  }
  return bench.ended('within');
}

function difference([first, second]: readonly Mark[]): Mark {
  return second ? { right: second.right - first!.right, up: second.up - first!.up } : first!;
}

function turnScrew(
  bench: Bench,
  { station, places }: Stage,
  marks: readonly Mark[],
  strides: Map<string, { turns: number; side: number }>,
) {
  const mirror = station - 1;
  const part = bench.machine.path[mirror]!;
  const measured = difference(marks);
  const axis = Math.abs(measured.right) >= Math.abs(measured.up) ? 'right' : 'up';
  const effects = Object.keys(bench.machine.mounts[part.mount!]!.screws).map((name) => {
    const { right, up } = difference(places.map((place) => bench.effect(mirror, name, place)));
    const along = axis === 'right' ? right : up;
    return { name, along, purity: Math.abs(along) / Math.hypot(right, up) };
  });
  const best = effects.reduce((most, one) => (one.purity > most.purity ? one : most));
  const key = `${mirror} ${best.name}`;
  const side = Math.sign(measured[axis]);
  const last = strides.get(key);
  const turns = last === undefined ? FIRST_TURN : last.side === side ? last.turns : last.turns / 2;
  strides.set(key, { turns, side });
  bench.adjust(part.name, { turns: { [best.name]: -side * Math.sign(best.along) * turns } });
}

/** The tube by minus the mean of the marks, transformed back through the mirrors. */
function shiftTube(bench: Bench, { places }: Stage, marks: readonly Mark[]) {
  const { state } = bench;
  const at = places[0]!;
  const here = bench.there(state, at);
  const effect = (axis: 'right' | 'up') => {
    const moved = bench.there({ ...state, tube: { ...state.tube, [axis]: state.tube[axis] + 1 } }, at);
    return { right: moved.right - here.right, up: moved.up - here.up };
  };
  const [r, u] = [effect('right'), effect('up')];
  const mean = (axis: 'right' | 'up') => marks.reduce((sum, mark) => sum + mark[axis], 0) / marks.length;
  const target = { right: -mean('right'), up: -mean('up') };
  const determinant = r.right * u.up - u.right * r.up;
  const by = {
    right: (target.right * u.up - u.right * target.up) / determinant,
    up: (r.right * target.up - target.right * r.up) / determinant,
  };
  const frame = viewer(bench.machine.source.fires);
  const along = (k: 0 | 1 | 2) => by.right * frame.right[k] + by.up * frame.up[k];
  bench.adjust('tube', { shift: { by: [along(0), along(1), along(2)] } });
}

/** Any screw, any way, a quarter turn; on while it gets better, another when it got worse. */
export function byGuess(seed: number, level: number): Ended {
  const draw = random(Math.imul(seed + 3, 0xc2b2ae35) ^ level);
  const bench = new Bench(seed, level, draw);
  const stages = stagesOf(bench.machine);
  let last: { stage: number; value: number; again: () => void; back: () => void } | undefined;
  for (let reached = 0; reached < stages.length; ) {
    if (bench.adjustments >= MOST_ADJUSTMENTS) return bench.ended('going on');
    const stage = stages[reached]!;
    const element = bench.machine.path[stage.station]!;
    const { centre = Infinity, spread = Infinity } = lookup(bench.limits.stations, element.name) ?? {};
    const measured = measures(stage.places.map((place) => bench.shoot(place)));
    const value = Math.max(measured.centre / centre, measured.spread / spread);
    if (value <= 1) {
      last = undefined;
      reached += 1;
      continue;
    }
    if (last?.stage === reached && value < last.value) {
      last = { ...last, value };
      last.again();
      continue;
    }
    if (last?.stage === reached) last.back();
    const move = guess(bench, stage, draw);
    last = { stage: reached, value, again: () => move(1), back: () => move(-1) };
    move(1);
  }
  return bench.ended('within');
}

function guess(bench: Bench, { station }: Stage, draw: Random): (sense: number) => void {
  const part = bench.machine.path[station - 1];
  const way = draw.choose([-1, 1]);
  if (!part?.mount || draw.uniform() < 0.1) {
    const frame = viewer(bench.machine.source.fires);
    const axis = draw.choose([frame.right, frame.up]);
    return (sense) =>
      bench.adjust('tube', { shift: { by: [way * sense * axis[0], way * sense * axis[1], way * sense * axis[2]] } });
  }
  const screw = draw.choose(Object.keys(bench.machine.mounts[part.mount]!.screws));
  return (sense) => bench.adjust(part.name, { turns: { [screw]: (way * sense) / 4 } });
}
