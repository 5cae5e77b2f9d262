/**
 * Power readings in the order of the log, grouped: a reading of a station is valid until something before the station
 * changes. Two readings of neighbouring stations that are valid at the same time give the transmission between them.
 */
import {
  dateAt,
  unreadReach,
  type Between,
  type CareAction,
  type Entry,
  type LogEntry,
  type Machine,
  type PowerReading,
  type UnreadReach,
  type Visit,
} from '../model/index.ts';
import { mean } from './meter.ts';
import { CLEANS } from './parts.ts';

/** A reading with its index in the log. */
export type Read = PowerReading & { readonly order: number };

export interface Power {
  readonly readings: readonly Read[];
  /** Two readings valid at the same time, and the elements between them. */
  readonly pairs: readonly { readonly through: readonly string[]; readonly from: Read; readonly to: Read }[];
  /** A reading, the one before at the same station, and what was done in between to the elements before it. */
  readonly steps: readonly { readonly from: Read; readonly to: Read; readonly between: Between }[];
  readonly done: readonly Done[];
}

export function powerIn(entries: readonly LogEntry[], visits: readonly Visit[]): Power {
  const walk = new Walk();
  let k = 0;
  entries.forEach(({ entry, cell }, order) => {
    while (visits[k + 1] && visits[k + 1]!.from <= order) {
      k++;
      walk.nextVisit();
    }
    const visit = visits[k];
    if (entry.kind !== 'power' || !visit) {
      walk.pass(entry, order);
      return;
    }
    const date = dateAt(entries, visit, order);
    walk.read({
      station: entry.station,
      readings: entry.readings,
      mean: mean(entry.readings),
      session: visit.number,
      cell,
      order,
      ...(date !== undefined && { date }),
    });
  });
  return walk.done();
}

/** An action on a part, or a disturbance of unknown extent. */
export interface Done {
  readonly order: number;
  readonly to: keyof Between;
  readonly part: string;
}

class Walk {
  private path: Machine['path'] = [];
  private described = '';
  private holding = new Map<string, Read>();
  private readonly last = new Map<string, Read>();
  private readonly log: Done[] = [];
  private readonly readings: Read[] = [];
  private readonly pairs = new Map<string, Power['pairs'][number]>();
  private readonly steps: Power['steps'][number][] = [];

  read(reading: Read): void {
    const { station } = reading;
    const before = this.last.get(station);
    if (before) this.steps.push({ from: before, to: reading, between: this.between(before, reading) });
    this.last.set(station, reading);
    this.holding.set(station, reading);
    this.readings.push(reading);
  }

  /** Transmissions are computed within one visit: at the next, tube and meter have changed. */
  nextVisit(): void {
    this.end(() => false);
  }

  /** An entry that is no reading, and the readings that it invalidates. */
  pass(entry: Entry, order: number): void {
    const done = this.doneBy(entry);
    if (!done) return;
    this.log.push({ order, ...done });
    this.end((station) => done.to !== 'disturbed' && !this.isBehind(station, done.part));
    if (entry.kind === 'machine') this.path = entry.machine.path;
  }

  done(): Power {
    this.pair();
    return { readings: this.readings, pairs: [...this.pairs.values()], steps: this.steps, done: this.log };
  }

  private doneBy(entry: Entry): Omit<Done, 'order'> | undefined {
    switch (entry.kind) {
      case 'machine':
        return this.isNew(entry.machine) ? { to: 'disturbed', part: 'another machine' } : undefined;
      case 'care':
        return entry.did && entry.did !== 'inspected' ? { to: changeBy(entry.did), part: entry.part } : undefined;
      case 'adjust':
        return { to: 'moved', part: entry.part };
      case 'event':
        return { to: 'disturbed', part: entry.what };
      case 'unread':
        return DISTURBS[unreadReach(entry.of)] ? { to: 'disturbed', part: 'a cell with errors' } : undefined;
      case 'limits':
      case 'session':
      case 'marks':
      case 'power':
      case 'measure':
      case 'checks':
      case 'note':
      case 'work':
      case 'release':
        return undefined;
      default:
        return entry satisfies never;
    }
  }

  private isNew(machine: Machine): boolean {
    const described = JSON.stringify(machine);
    if (described === this.described) return false;
    const isFirst = this.described === '';
    this.described = described;
    if (isFirst) this.path = machine.path;
    return !isFirst;
  }

  /** Pairs the readings that were valid until now, and drops those that are no longer. */
  private end(holdsOn: (station: string) => boolean): void {
    this.pair();
    this.holding = new Map([...this.holding].filter(([station]) => holdsOn(station)));
  }

  /**
   * Whether an action on a part changes the power at a station: at a lens at the end of the path, power is measured
   * behind the lens.
   */
  private isBehind(station: string, part: string): boolean {
    const [at, of] = [this.index(station), this.index(part)];
    return of < at || (of === at && this.endsInLens(at));
  }

  private endsInLens(index: number): boolean {
    return index === this.path.length - 1 && this.path[index]?.kind === 'lens';
  }

  /** Index in the path; −1 for the tube, before all elements. */
  private index(name: string): number {
    return this.path.findIndex((element) => element.name === name);
  }

  private pair(): void {
    const along = [...this.holding.values()]
      .filter(({ mean: power }) => power > 0 && Number.isFinite(power))
      .map((reading) => ({ reading, index: this.index(reading.station) }))
      .toSorted((one, other) => one.index - other.index);
    along.slice(1).forEach(({ reading: to, index }, k) => {
      const { reading: from, index: first } = along[k]!;
      const through = this.path.slice(first, this.endsInLens(index) ? index + 1 : index).map(({ name }) => name);
      this.pairs.set(`${from.order} ${to.order}`, { through, from, to });
    });
  }

  private between({ order: after, station }: Read, { order: before }: Read): Between {
    const done = this.log.filter(
      ({ order, to, part }) => order > after && order < before && (to === 'disturbed' || this.isBehind(station, part)),
    );
    const parts = (to: keyof Between) => [...new Set(done.filter((one) => one.to === to).map(({ part }) => part))];
    return {
      cleaned: parts('cleaned'),
      replaced: parts('replaced'),
      moved: parts('moved'),
      disturbed: parts('disturbed'),
    };
  }
}

function changeBy(did: CareAction): 'cleaned' | 'replaced' | 'moved' {
  if (CLEANS.has(did)) return 'cleaned';
  return did === 'tightened' ? 'moved' : 'replaced';
}

/** Whether a cell with errors may have changed the power. Readings are not compared across visits anyway. */
const DISTURBS: Readonly<Record<UnreadReach, boolean>> = {
  everything: true,
  part: true,
  station: false,
  limits: false,
  visit: false,
  nothing: false,
};
