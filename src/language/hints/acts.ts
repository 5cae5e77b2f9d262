/** The steps to do now as acts of the hands, for a small screen: the screws of one part together, the tapes of one station. */
import {
  clockSense,
  cornerOf,
  lengthsIn,
  lookup,
  turnsInWords,
  type Machine,
  type MountDescription,
  type ShotRequest,
  type StationReport,
  type Step,
} from '../../model/index.ts';
import { placeInBrief, shiftInWords } from '../../words/index.ts';
import { machineAt } from '../book/machine-at.ts';
import type { Book } from '../book/book-type.ts';
import type { AdviceNow } from './advice-now.ts';

/** One act, such as turning the screws of a mirror. */
export interface Act {
  /** `turn M1`, `trial turn M1`, `tape M2`, `make safe (4 open)`; empty for a repair that its row describes. */
  readonly what: string;
  /** What goes with it: `loosen its lock nuts first`, `fresh tape each, one pulse`. */
  readonly how?: string;
  /** Of which of two ways it is part, from 1. */
  readonly way?: number;
  readonly rows: readonly ActRow[];
}

/** One screw, one tape, one check, or one sentence. */
export interface ActRow {
  /** The screw, or the number of a tape or a check. */
  readonly name?: string;
  /** Where it is, or what to do. */
  readonly text: string;
  readonly turn?: {
    readonly sense: 'in' | 'out';
    /** `1/4` */
    readonly amount: string;
    /** `clockwise` */
    readonly hand: string;
  };
}

/** The acts of an advice, in the order of its steps. The book must be up to date. */
export function actsOf(book: Book, { steps, station, blanks = [], ways }: AdviceNow): Act[] {
  if (station !== undefined)
    return [
      {
        what: `read the ${blanks.length === 1 ? 'tape' : 'tapes'}: ${station}`,
        rows: blanks.map((text, k) => ({ name: `${k + 1}`, text })),
      },
    ];
  const machine = machineAt(book, Infinity);
  const { stations, verdict } = book.evaluation();
  // A verdict alone never stands for a step that is hidden.
  if (steps.length === 0 && verdict !== 'within')
    return [{ what: 'your choice', how: 'the advice is closed', rows: [] }];
  const acts = (of: readonly Step[]) => groupsOf(of).map((group) => actOf(group, machine, stations));
  if (!ways) return acts(steps);
  return [
    { what: 'choose 1 or 2', rows: ways.map(({ brief }, k) => ({ name: `${k + 1}`, text: brief })) },
    ...ways.flatMap((way, k) => acts(way.steps).map((act) => ({ ...act, way: k + 1 }))),
  ];
}

type Turn = Extract<Step, { kind: 'turn' }>;

/** Steps that are one act: the turns of one part, and before them the loosening of its nuts. */
function groupsOf(steps: readonly Step[]): Step[][] {
  const groups: Step[][] = [];
  const turnsOf = (part: string) =>
    groups.find(([first]) => first?.kind === 'turn' && first.part === part) ??
    groups.find(([first]) => first?.kind === 'lock' && first.to === 'loose' && first.part === part);
  for (const step of steps) {
    const own = step.kind === 'turn' ? turnsOf(step.part) : undefined;
    if (own) own.push(step);
    else groups.push([step]);
  }
  return groups;
}

function actOf(group: readonly Step[], machine: Machine | undefined, stations: readonly StationReport[]): Act {
  const [first] = group;
  const turns = group.filter((step): step is Turn => step.kind === 'turn');
  if (turns.length > 0) return turning(turns, first!.kind === 'lock', machine);
  return single(first!, machine, stations);
}

function turning(turns: readonly Turn[], isLoosened: boolean, machine: Machine | undefined): Act {
  const { part } = turns[0]!;
  const mountName = machine?.path.find(({ name }) => name === part)?.mount;
  const mount = mountName === undefined ? undefined : lookup(machine!.mounts, mountName);
  const how = [
    ...(isLoosened ? ['loosen its lock nuts first'] : []),
    ...(mount?.heads === 'beam side' ? ['screw heads on the beam side'] : []),
  ].join('; ');
  return {
    what: `${turns.some(({ isTrial }) => isTrial) ? 'trial turn' : 'turn'} ${part}`,
    ...(how !== '' && { how }),
    rows: turns.map(({ screw, turns: amount }) => ({
      name: screw,
      text: (mount && cornerOf(mount, screw)) ?? '',
      turn: { sense: amount < 0 ? 'out' : 'in', amount: turnsInWords(amount), hand: handOf(amount, mount) },
    })),
  };
}

function handOf(turns: number, mount: MountDescription | undefined): string {
  return clockSense(turns, mount?.hand);
}

function single(step: Step, machine: Machine | undefined, stations: readonly StationReport[]): Act {
  switch (step.kind) {
    case 'turn':
      return turning([step], false, machine);
    case 'shift':
      return shifting(step, machine);
    case 'lock':
      return step.to === 'tight'
        ? { what: `tighten ${step.part}`, how: 'hold each screw still', rows: [] }
        : { what: `loosen ${step.part}`, how: 'its lock nuts', rows: [] };
    case 'care':
      return { what: `${CARE[step.did] ?? step.did} ${step.part}`, rows: [{ text: step.say }] };
    case 'check':
      return {
        what: step.brief ?? 'check',
        rows: step.items.map((text, k) => ({ name: `${k + 1}`, text })),
      };
    case 'repair':
      return { what: step.brief ?? '', rows: [{ text: step.say }] };
    case 'release':
      return { what: 'sign off', how: 'every station is within', rows: [{ text: step.say }] };
    case 'shoot':
      return shooting(step, machine, stations);
  }
}

const CARE: Readonly<Partial<Record<string, string>>> = { replaced: 'replace', tightened: 'tighten' };

function shifting({ part, by, end }: Extract<Step, { kind: 'shift' }>, machine: Machine | undefined): Act {
  const still = end === 'tail' ? 'exit' : 'tail';
  return {
    what: `move ${end === undefined ? part : `${part} ${end}`}`,
    ...(part === 'tube'
      ? { how: end === undefined ? 'both ends alike' : `its ${still} end stays` }
      : { how: 'its whole block' }),
    rows: [{ text: shiftInWords(by, machine?.units ?? 'mm') }],
  };
}

function shooting(
  { station, shots, handlesLens }: Extract<Step, { kind: 'shoot' }>,
  machine: Machine | undefined,
  stations: readonly StationReport[],
): Act {
  const report = stations.find(({ name }) => name === station);
  const isLens = machine?.path.some(({ name, kind }) => name === station && kind === 'lens') === true;
  const first = shots.findIndex(({ height }) => height !== undefined);
  const how = [
    ...(isLens ? ['lens tube off'] : handlesLens ? ['lens out'] : []),
    shots.length > 1 ? 'fresh tape each, one pulse' : 'fresh tape, one pulse',
  ];
  const rows = shots.map((shot, k) => ({ name: `${k + 1}`, text: shotInWords(shot, report, k === first) }));
  return { what: `tape ${station}`, how: how.join('; '), rows: shots.length === 1 && rows[0]!.text === '' ? [] : rows };
}

/** @param isFirst of the tapes on the bed: one tape, which stays where it is for the others */
function shotInWords({ at, with: others, height }: ShotRequest, report: StationReport | undefined, isFirst: boolean) {
  if (!report) return '';
  const place = placeInBrief(report.carriages, at, { ...nearest(report), ...others });
  if (height === undefined) return place;
  const below = `${lengthsIn(report.frame.units).given(height)} below`;
  return isFirst ? `on the bed alone, ${below}: ${place}` : `the same tape ${below}, not moved`;
}

/** A carriage that a shot does not name stands at its shortest leg. */
function nearest({ carriages }: StationReport): Record<string, string | number> {
  return Object.fromEntries(
    carriages.map(({ element, legs, shortest }) => [
      element,
      Object.entries(legs).find(([, leg]) => leg === shortest)?.[0] ?? shortest,
    ]),
  );
}
