/** If a mark is double or a crescent: inspect for the cause, then shoot the same places again. */
import type { Reading, ShotRequest, Step } from '../model/index.ts';
import { sameCarriages, type Station, type System } from '../machine/index.ts';
import { shoot, shotsLacking } from './shooting.ts';
import type { StationVerdict } from '../verdict/index.ts';
import { isDoubtful, shapeDoubts, type Doubtful } from '../estimate/index.ts';
import { listed } from '../words/index.ts';

/** Undefined if no fresh mark has such a shape. */
export function lookFirst(system: System, target: StationVerdict): Step[] | undefined {
  const doubts = shapeDoubts(target.fresh);
  if (doubts.length === 0) return undefined;
  const { station } = target;
  const shapes = [...new Set(doubts.flatMap(({ shape }) => (isDoubtful(shape) ? [shape] : [])))];
  return [lookStep(system, station, shapes), shoot(station, shotsOf(target, doubts))];
}

function lookStep(system: System, station: Station, shapes: readonly Doubtful[]): Step {
  const items = shapes.flatMap((shape) =>
    shape === 'double' ? forDouble(system, station) : [forCrescent(system, station)],
  );
  const what = listed(shapes.map((shape) => (shape === 'double' ? 'a double mark' : 'a crescent')));
  return {
    kind: 'check',
    items,
    say: `With the beam off, inspect: ${items.join('; ')}. Log what you find in a care cell.`,
    why: `${station.name} has ${what}: its centre does not show where the beam is. It is not used for any turn, and ${station.name} is not within until that place has a new mark.`,
  };
}

/** Tape is shot with the lens out: so a mirror or the tube is the cause. */
function forDouble({ mirrors, stations }: System, { index }: Station): string[] {
  const tube = 'the tube (if the first tape shows a double mark too, it is not in its lowest mode)';
  const before = mirrors.filter((mirror) => mirror < index).map((mirror) => stations[mirror]!.name);
  return before.length === 0 ? [tube] : [`${listed(before)} (a crack, or an optic loose in its mount)`, tube];
}

function forCrescent({ stations }: System, { index, name }: Station): string {
  const first = stations[index - 1]?.name ?? 'the tube';
  return `what the beam passes before ${name}, ${first} first (an aperture, a mount or a cover that clips it on the missing side of the mark)`;
}

/**
 * The doubtful places, and those that are missing. On the bed only differences count, so every height of that tape is
 * repeated.
 */
function shotsOf(target: StationVerdict, doubts: readonly Reading[]): ShotRequest[] {
  const isAgain = (reading: Reading) =>
    doubts.some(
      (doubt) =>
        doubt.cell === reading.cell &&
        (doubt === reading ||
          (doubt.height > 0 && reading.height > 0 && sameCarriages(doubt.carriages, reading.carriages))),
    );
  const again = target.fresh.filter(isAgain).map(
    ({ at, with: others, height }): ShotRequest => ({
      at,
      ...(Object.keys(others).length > 0 && { with: others }),
      ...(height > 0 && { height }),
    }),
  );
  return [...new Map([...again, ...shotsLacking(target)].map((shot) => [JSON.stringify(shot), shot])).values()];
}
