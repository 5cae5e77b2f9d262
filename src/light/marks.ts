/** The position of the beam on a tape, from fresh marks. */
import type { Evaluation, Machine, Reading } from '../model/index.ts';
import type { Corner } from './corners.ts';

/** A tape that the beam missed has no coordinates. */
export type Mark = Pick<Reading, 'right' | 'up' | 'u'>;

export type Hit = Required<Mark>;

/** The last mark on an element's tape with the carriages at this corner, if it is fresh. */
export function lastAt(
  stations: Evaluation['stations'],
  { path }: Pick<Machine, 'path'>,
  index: number,
  corner: Corner,
): Mark | undefined {
  const legOf = (element: string) => corner.legs[path.findIndex(({ name }) => name === element)]?.value;
  return validReadings(stations, path[index]!.name).findLast(({ carriages }) =>
    Object.entries(carriages).every(([element, leg]) => legOf(element) === leg),
  );
}

/**
 * Fresh readings on the tape itself, not on one below it. A mark with one coordinate is left out: its loss is unknown.
 */
export function validReadings(stations: Evaluation['stations'], name: string): readonly Reading[] {
  const station = stations.find((report) => report.name === name);
  return station?.staleSince === undefined
    ? (station?.readings.filter((reading) => reading.height === 0 && (reading.none || isHit(reading))) ?? [])
    : [];
}

/** Whether a mark has both coordinates. */
export function isHit<M extends Mark>(mark: M): mark is M & Hit {
  return mark.right !== undefined && mark.up !== undefined;
}

/** The mark at the maximum distance from the centre. */
export function farthest<M extends Hit>(marks: readonly M[]): M | undefined {
  const off = ({ right, up }: Hit) => Math.hypot(right, up);
  return marks.reduce<M | undefined>((most, mark) => (most && off(most) >= off(mark) ? most : mark), undefined);
}
