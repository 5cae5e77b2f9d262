/**
 * Logs of machines drawn from the tool's own priors, one mark of each picked at random and predicted before it is shot:
 * how often the 95 % ellipse of the reading holds it, and the mean normalised innovation squared per degree of freedom.
 */
import { Vector3 } from 'three';
import { segment, withMove, withMarks, type Segment, type SegmentEvent } from '../../src/estimate/segment.ts';
import { NO_MOVE, withDisturbance, withShift, withTubeMove, withTurn } from '../../src/machine/move.ts';
import { estimate, predict } from '../../src/estimate/estimate.ts';
import { initialState } from '../../src/estimate/state.ts';
import type { LoggedReading } from '../../src/estimate/logged-reading.ts';
import { ROOT } from '../../src/model/index.ts';
import { prior, system, type System } from '../../src/machine/system.ts';
import { tubeShift } from '../../src/optics/index.ts';
import { drawnMachine, lock, markOf, shiftBlock, shiftTube, turn, type Drawn } from './drawn.ts';
import { ROUTES, drawnPlan } from './machines.ts';
import { random, type Random } from './random.ts';
import { LEGS, machineCells } from './world.ts';
import { reader } from '../support/log.ts';

export interface Predicted {
  /** (z − ẑ)ᵀ S⁻¹ (z − ẑ), two degrees of freedom. */
  readonly nis: number;
}

/**
 * Reading: a step of 0.5 mm and a placing of 0.25 mm, as one normal error; with real rounding to measure the deviation
 * that it causes.
 */
const PLACING = 0.25;
const STEP = 0.5;
const U = Math.hypot(STEP / Math.sqrt(12), PLACING);
const MOST_CELLS = 14;

export interface Log {
  readonly segment: Segment;
  readonly predicted?: Predicted | undefined;
}

/** One log; `rounded` rounds each reading to the step of the rule. */
export function drawnLog(seed: number, rounded: boolean): Log {
  const draw = random(seed);
  const of = machineOf(draw);
  const hidden = hiddenIn(of, draw);
  const cells = 4 + Math.floor(draw.uniform() * (MOST_CELLS - 4));
  const target = 2 + Math.floor(draw.uniform() * (cells - 2));
  let log = segment(of, [], initialState().cache);
  for (let cell = 0; cell < cells; cell++) {
    const move = draw.uniform() < 0.45 && cell > 0 && cell !== target;
    if (move) {
      log = moveSomething(log, of, hidden, draw);
      continue;
    }
    const readings = shoot(of, hidden, draw, cell, rounded);
    if (readings.length === 0) continue;
    if (cell >= target && readings[0]!.height === 0)
      return { segment: log, predicted: predictedOf(log, draw.choose(readings)) };
    log = withMarks(log, { moment: { order: cell, cell }, station: 'any', readings, validReadings: readings });
  }
  return { segment: log };
}

type Places = 'given' | 'unknown';

function machineOf(draw: Random, places: Places = 'given'): System {
  const plan = drawnPlan(draw, draw.choose(ROUTES), { doubt: 20, places });
  // Wide tapes: marks drawn from the priors alone lie far out, and a mark outside its tape would be set aside until a
  // repeat confirms it.
  const text = machineCells({ ...plan, units: 'mm' }, 'note: none\n').replaceAll(/aperture: [\d.]+/g, 'aperture: 200');
  const { entries } = reader.read(text, {
    file: 'drawn.alignbook.yaml',
    files: new Map(),
  });
  const machine = entries.flatMap(({ entry }) => (entry.kind === 'machine' ? [entry.machine] : []))[0]!;
  return system(machine);
}

function hiddenIn(of: System, draw: Random): Drawn {
  const effects = Object.fromEntries(
    of.screws.filter(({ mirror }) => mirror === 0).map(({ screw, effect }) => [screw, effect]),
  );
  const sends = of.mirrors.map((mirror) => of.layout.elements[mirror]!.sends!);
  return drawnMachine(draw, { fires: of.layout.fires, sends }, effects, of.screws[0]!.doubt);
}

function moveSomething(log: Segment, of: System, hidden: Drawn, draw: Random): Segment {
  const mirror = Math.floor(3 * draw.uniform());
  const part = of.stations[mirror]!.name;
  const kind = draw.uniform();
  if (kind < 0.7) {
    const screw = draw.choose(of.screws.filter((one) => one.mirror === mirror)).screw;
    const turns = draw.choose([-1 / 2, -1 / 4, -1 / 8, 1 / 8, 1 / 4, 1 / 2]);
    turn(hidden, draw, mirror, screw, turns);
    return withMove(log, withTurn(NO_MOVE, part, screw, turns));
  }
  if (kind < 0.8) {
    lock(hidden, draw, mirror);
    return withMove(
      log,
      withDisturbance(NO_MOVE, part, { tilt: prior(of.machine, 'lockTilt') ** 2, place: 0, aperture: 0 }),
    );
  }
  const by = [1, 2, 3].map(() => draw.choose([-1, 0, 1])) as [number, number, number];
  if (kind < 0.9) {
    shiftTube(hidden, draw, new Vector3(...by));
    return withMove(log, withTubeMove(NO_MOVE, { ...tubeShift(of.layout, by), turnRight: 0, turnUp: 0 }));
  }
  shiftBlock(hidden, draw, 0, new Vector3(...by));
  return withMove(log, withShift(NO_MOVE, of.stations[0]!.name, by));
}

/** A marks cell: one station, one or two places of the carriages; at the lens sometimes two tapes on the bed. */
function shoot(of: System, hidden: Drawn, draw: Random, order: number, rounded: boolean): LoggedReading[] {
  const station = Math.floor(4 * draw.uniform());
  const leg = (name: 'M2' | 'M3') => draw.choose([LEGS[name].near, LEGS[name].far]);
  const below = station === 3 && draw.uniform() < 0.5;
  const tape = { right: 5 * draw.normal(), up: 5 * draw.normal() };
  const corner = { M2: leg('M2'), M3: leg('M3') };
  const shots = below
    ? [20, 120].map((height) => ({ corner, height }))
    : [corner, { M2: leg('M2'), M3: leg('M3') }].map((one) => ({ corner: one, height: 0 }));
  return shots.flatMap(({ corner: carriages, height }): LoggedReading[] => {
    const mark = markOf(hidden, carriages, station, height);
    if (!mark) return [];
    const part = (value: number) =>
      rounded ? STEP * Math.round((value + PLACING * draw.normal()) / STEP) : value + U * draw.normal();
    const shown = { right: part(mark.right + (below ? tape.right : 0)), up: part(mark.up + (below ? tape.up : 0)) };
    const travels = of.stations[station]!.travels.map(({ element }) => [element, carriages[element as 'M2' | 'M3']]);
    return [
      {
        station,
        at: 'here',
        with: {},
        carriages: Object.fromEntries(travels),
        height,
        ...shown,
        u: U,
        none: false,
        count: 1,
        cell: order,
        path: ROOT,
        order,
      },
    ];
  });
}

function predictedOf(log: Segment, reading: LoggedReading): Predicted | undefined {
  const result = predict(estimate({ ...initialState(), segment: log })!, [reading], NO_MOVE);
  if (!result) return undefined;
  const [a, b, , d] = result.covariance.data;
  const [right, up] = [reading.right! - result.mean[0]!, reading.up! - result.mean[1]!];
  const [rr, uu, ru] = [a! + U ** 2, d! + U ** 2, b!];
  return { nis: (uu * right ** 2 - 2 * ru * right * up + rr * up ** 2) / (rr * uu - ru ** 2) };
}

/** A number of moves and readings of one machine, in the same mixture, and the true state of the machine at the end. */
export function endlessLog(
  seed: number,
  cells: number,
  places?: Places,
): { readonly system: System; readonly hidden: Drawn; readonly steps: readonly SegmentEvent[] } {
  const draw = random(seed);
  const of = machineOf(draw, places);
  const hidden = hiddenIn(of, draw);
  const steps: SegmentEvent[] = [];
  for (let cell = 0; steps.length < cells; cell++) {
    const moves = draw.uniform() < 0.45;
    const readings = moves ? [] : shoot(of, hidden, draw, cell, false);
    if (moves) steps.push(moveSomething(segment(of, [], initialState().cache), of, hidden, draw).last!);
    else if (readings.length > 0)
      steps.push(
        withMarks(segment(of, [], initialState().cache), {
          moment: { order: cell, cell },
          station: 'any',
          readings,
          validReadings: readings,
        }).last!,
      );
  }
  return { system: of, hidden, steps };
}
