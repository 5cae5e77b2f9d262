/** A station in words, the same in print, in a hover and in hints. Lengths in the machine's units, angles mrad. */
import {
  bracketed,
  listed,
  markInWords,
  percent,
  shortPlace,
  placeInWords,
  slopeInDirections,
  verdictInWords,
} from '../../words/index.ts';
import {
  hundredths,
  isVertical,
  lengthsIn,
  type Lengths,
  type Reading,
  type Requirement,
  type StationReport,
  type StationState,
  type Units,
} from '../../model/index.ts';

/** `within limits (probability within 96 %)`; `no limits`. */
export function stateInWords({ state, probability }: Pick<StationReport, 'state' | 'probability'>): string {
  if (state === 'incomplete') return `${state}, ${SHORT}`;
  return probability === undefined ? shortState(state) : verdictInWords(state, probability);
}

const SHORT = 'not shot at every place';

export function shortState(state: StationState): string {
  switch (state) {
    case 'unlimited':
      return 'no limits';
    case 'unread':
      return 'not shot';
    case 'incomplete':
      return SHORT;
    default:
      return state;
  }
}

/** The direction of the beam at a tape, and the machine's word for the viewer's right. */
export function frameInWords({ runs, right }: StationReport['frame']): string {
  if (isVertical(runs)) return `Beam runs ${runs}; marks use the machine’s directions.`;
  return `Beam runs ${runs}; looking along it, right is the machine’s ${right}.`;
}

/** A reading with its place, marked as stale if it is. */
export function readingInWords(
  reading: Reading,
  station: Pick<StationReport, 'carriages' | 'frame' | 'staleSince'>,
): string {
  const place = placeInWords(station.carriages, reading.at, reading.with);
  const height =
    reading.height > 0
      ? `${lengthsIn(station.frame.units).given(reading.height)} below (position of the tape unknown): `
      : '';
  const mark = reading.none
    ? 'no mark: the beam missed the tape'
    : markInWords(reading.right, reading.up, station.frame);
  return `${place === '' ? '' : `${place}: `}${height}${mark}${station.staleSince === undefined ? '' : ' (stale)'}`;
}

/** Named `tilt` with a plumb limit, else `slope`. */
export function slopeInWords({
  slope,
  frame,
  requirements,
}: StationReport): { readonly name: 'tilt' | 'slope'; readonly words: string } | undefined {
  if (!slope) return undefined;
  const { right, up, u } = slope;
  const way = slopeInDirections(right * 1000, up * 1000, frame);
  const sure = `± ${(Math.max(u.right, u.up) * 1000).toFixed(1)}`;
  const words = way === 'centred' ? `not significant (${sure} mrad)` : `${way} (mrad, each ${sure})`;
  return { name: requirements.some(({ limit }) => limit === 'plumb') ? 'tilt' : 'slope', words };
}

/** The value of a requirement with its uncertainty, limit and probability. */
export function requirementInWords(requirement: Requirement, { readings, carriages, frame }: StationReport): string {
  const { limit, at, with: others, value, u, probability } = requirement;
  const { given, measured } = measuredParts(limit, frame.units);
  const bound = `limit ${given(requirement.max)}`;
  if (value === undefined || u === undefined) return `not known; ${bound}`;
  const place = at === undefined ? '' : placeInWords(carriages, at, others);
  const read =
    limit === 'plumb'
      ? readings.some(({ height }) => height > 0)
      : at === undefined ||
        readings.some(
          (reading) =>
            !reading.none && reading.height === 0 && placeInWords(carriages, reading.at, reading.with) === place,
        );
  const where = [place, read ? '' : 'predicted, not shot'].filter(Boolean).join('; ');
  const chance = probability === undefined ? '' : `; within: ${percent(probability)}`;
  return `${measured({ value, u })}${bracketed(where)}, ${bound}${chance}`;
}

/** The stations without limits; undefined if every station has limits. */
export function unlimitedInWords(stations: readonly StationReport[]): string | undefined {
  const names = stations.filter(({ state }) => state === 'unlimited').map(({ name }) => name);
  return names.length === 0 ? undefined : `Not judged: ${listed(names)} (no limits).`;
}

/** `centre 8.1 of 2 mm (far, front)`: the requirement with the lowest probability. */
export function worstRequirement({ requirements, carriages, frame }: StationReport): string | undefined {
  const known = requirements.filter(({ value }) => value !== undefined);
  const worst = known.reduce<Requirement | undefined>(
    (most, one) => (most && (most.probability ?? 1) <= (one.probability ?? 1) ? most : one),
    undefined,
  );
  if (!worst) return undefined;
  const { mark, given } = measuredParts(worst.limit, frame.units);
  const place = worst.at === undefined ? '' : shortPlace(carriages, worst.at, worst.with);
  return `${worst.limit} ${mark(worst.value!)} of ${given(worst.max)}${bracketed(place)}`;
}

/** How values of a limit are written; a plumb is an angle, rad. */
export function measuredParts(limit: Requirement['limit'], units: Units): Pick<Lengths, 'mark' | 'given' | 'measured'> {
  return limit === 'plumb' ? MILLIRADIANS : lengthsIn(units);
}

const MILLIRADIANS: Pick<Lengths, 'mark' | 'given' | 'measured'> = {
  mark: (rad) => (rad * 1000).toFixed(1),
  given: (rad) => `${hundredths(rad * 1000)} mrad`,
  measured: ({ value, u }) => `${(value * 1000).toFixed(1)} ± ${(u * 1000).toFixed(1)} mrad`,
};
