/** The tapes to shoot next, the cell for the marks, and the predicted marks. */
import { lengthsIn, type Expected, type ShotRequest, type Step, type Units } from '../model/index.ts';
import { smallestProbability, variance } from '../statistics/index.ts';
import { termsOf, carriagesOf, shotPoints, type Demand, type StationVerdict } from '../verdict/index.ts';
import {
  ellipse,
  NO_MOVE,
  areOpposite,
  legsOf,
  placesNeeded,
  placesOf,
  queryAt,
  sameCarriages,
  isMark,
  carriagesAt,
  type Move,
  type Place,
  type Station,
} from '../machine/index.ts';
import {
  predict,
  predictMark,
  tapeKey,
  READING,
  type Estimate,
  type State,
  type LoggedReading,
} from '../estimate/index.ts';
import { listed, nameInCell, stopInWords } from '../words/index.ts';

export type Shoot = Extract<Step, { kind: 'shoot' }>;

/**
 * mm below the lens: two tapes far enough apart to show a beam out of plumb, in round numbers of the units. The user
 * writes the true heights.
 */
const HEIGHTS: Readonly<Record<Units, readonly [number, number]>> = { mm: [20, 150], in: [0.75 * 25.4, 6 * 25.4] };

/** The shots that a station lacks to be complete. */
export function shotsLacking({ station, fresh, lacksPlumb }: StationVerdict): ShotRequest[] {
  const settings = shotPoints(fresh).map((point) => point.carriages);
  const places = areOpposite(station, settings) ? [] : placesLacking(station, fresh);
  return [...places.map(requestAt), ...(lacksPlumb(NO_MOVE) ? heightsOf(station) : [])];
}

/** The corner opposite to one that was shot, otherwise both. */
function placesLacking(station: Station, fresh: readonly LoggedReading[]): readonly Place[] {
  const settings = shotPoints(fresh).map((point) => point.carriages);
  const all = placesOf(station);
  const opposite = all.find((place) => settings.some((setting) => areOpposite(station, [setting, place.carriages])));
  return opposite ? [opposite] : placesNeeded(station);
}

/** The request for a shot of a place. */
export function requestAt(place: Place): ShotRequest {
  return { at: place.at, ...(Object.keys(place.with).length > 0 && { with: place.with }) };
}

/**
 * The tapes that make a station complete after a move; plumb is shot again only if its measurement will be invalid.
 * @param locks whether nuts are loosened or tightened too
 */
export function shotsAfresh({ station, lacksPlumb, demand }: StationVerdict, move: Move, locks = false): ShotRequest[] {
  const bed = demand?.limits.plumb !== undefined && (locks || lacksPlumb(move));
  return [...placesNeeded(station).map(requestAt), ...(bed ? heightsOf(station) : [])];
}

/** Two tapes on the bed. The head does not move between them. */
export function heightsOf(station: Station): ShotRequest[] {
  const [nearest] = placesOf(station);
  return HEIGHTS[station.units].map((height) => ({ ...requestAt(nearest!), height }));
}

/** Maximum number of places at once: more are more work than a turn. */
const MOST_AGAIN = 2;
/** A second place is shot with the first if its score is at least this fraction of the first's. */
const AS_WELL = 0.5;

/**
 * The shots that decide a doubt best: places whose plain reading contradicts the model; otherwise the bed, if only one
 * tape has shown the beam out of plumb, or if plumb is the most doubtful; otherwise the places where a limit may fail
 * and a shot would show it.
 */
export function shotsMore(verdict: StationVerdict, estimate: Estimate): ShotRequest[] {
  const { station, demand, disputed } = verdict;
  if (disputed.length > 0) return disputed.map(requestAt);
  if (!demand) return [];
  if (isPlumbOutByOneTape(verdict)) return heightsOf(station);
  const scored = placeScores(demand, estimate, uOf(verdict)).toSorted((one, other) => other.score - one.score);
  const [best] = scored;
  if (!best || plumbScore(verdict) > best.score) return heightsOf(station);
  const chosen = scored
    .slice(0, MOST_AGAIN)
    .filter(({ score }) => score >= AS_WELL * best.score)
    .map(({ place }) => place);
  return placesOf(station)
    .filter((place) => chosen.some((one) => sameCarriages(one.carriages, place.carriages)))
    .map(requestAt);
}

/** Standard uncertainty of one further reading, mm. */
function uOf({ fresh }: StationVerdict): number {
  return fresh.length === 0 ? 0.25 : Math.min(...fresh.map(({ u }) => u));
}

interface Scored {
  readonly place: Place;
  readonly score: number;
}

/**
 * Score of a shot at each place: P (1 − P) of each limit, times the fraction of the variance that the shot would
 * remove.
 */
function placeScores(demand: Demand, estimate: Estimate, u: number): Scored[] {
  const places = demand.places;
  const predicted = predict(
    estimate,
    places.map((place) => queryAt(demand.station, place.carriages)),
    NO_MOVE,
  );
  if (!predicted) return places.map((place) => ({ place, score: 0 }));
  const { mean, covariance } = predicted;
  const meanVariance = (k: number) => (variance(covariance, 2 * k) + variance(covariance, 2 * k + 1)) / 2;
  const { plumb: _, ...limits } = demand.limits;
  const scores = places.map(() => 0);
  for (const term of termsOf({ places, limits })) {
    const probability = smallestProbability([term], mean, covariance);
    const ends = term.other === undefined ? [term.one] : [term.one, term.other];
    const total = ends.reduce((sum, k) => sum + meanVariance(k), 0);
    for (const k of ends)
      scores[k]! +=
        probability * (1 - probability) * (meanVariance(k) / total) * (meanVariance(k) / (meanVariance(k) + u ** 2));
  }
  return places.map((place, k) => ({ place, score: scores[k]! }));
}

/** The same score of plumb. */
function plumbScore({ report, fresh }: StationVerdict): number {
  const plumb = report.requirements.find(({ limit }) => limit === 'plumb');
  if (!plumb || plumb.probability === undefined || plumb.u === undefined) return 0;
  return (plumb.probability * (1 - plumb.probability)) / (1 + tapesOnBed(fresh));
}

function isPlumbOutByOneTape({ report, fresh }: StationVerdict): boolean {
  return (
    tapesOnBed(fresh) === 1 && report.requirements.some(({ limit, value = 0, max }) => limit === 'plumb' && value > max)
  );
}

function tapesOnBed(fresh: StationVerdict['fresh']): number {
  return new Set(fresh.filter(({ height }) => height > 0).map(tapeKey)).size;
}

/** Number of fresh shots of the place with the fewest; for the bed, the number of tapes. */
export function timesShot(verdict: StationVerdict, shots: readonly ShotRequest[]): number {
  const { station, fresh } = verdict;
  const times = shots.map((shot) =>
    shot.height === undefined ? timesAt(verdict, legsOf(station, shot)) : tapesOnBed(fresh),
  );
  return Math.min(...times);
}

function timesAt({ fresh }: StationVerdict, carriages: Readonly<Record<string, number>>): number {
  return fresh.filter((reading) => reading.height === 0 && sameCarriages(reading.carriages, carriages)).length;
}

/** The step that shoots these tapes, with its cell. */
export function shoot(station: Station, shots: readonly ShotRequest[], why?: string): Shoot {
  const lens = lensOut(station, shots);
  return {
    kind: 'shoot',
    station: station.name,
    shots,
    say: shootText(station, shots, lens),
    cell: cellOf(station, shots),
    ...(why !== undefined && { why }),
    ...(lens !== undefined && { handlesLens: true }),
  };
}

/** Tape is never put on a lens, nor behind a fitted one; and no tape may block a shot at the bed. */
function lensOut({ name, element, lensBefore }: Station, shots: readonly ShotRequest[]): string | undefined {
  const isAcross = shots.some(({ height }) => height === undefined);
  if (element.kind === 'lens')
    return `With the lens tube off (witness line first, air hose off) and ${isAcross ? 'the tape across' : 'no tape across'} the opening under the head:`;
  return lensBefore === undefined ? undefined : `With the lens out of its tube, and what carries ${name} back on:`;
}

function shootText(station: Station, shots: readonly ShotRequest[], lens: string | undefined): string {
  const tape = tapeOn(station, lens !== undefined);
  const own = shots.filter((shot) => shot.height === undefined);
  const below = shots.filter((shot) => shot.height !== undefined);
  return [
    ...(lens === undefined ? [] : [lens]),
    ...(own.length > 0
      ? [
          `${tape}${own.length > 1 ? ' for each shot, one pulse each' : ', one pulse'}${numbered(own.map((shot) => settingInWords(station, shot)))}.`,
        ]
      : []),
    ...(below.length > 0
      ? [
          `${own.length > 0 ? 'Then, with no tape across the opening, one' : 'one'} tape on the bed that is not moved between the pulses, ${settingInWords(station, below[0]!)}: one pulse with it ${listed(below.map((shot) => lengthsIn(station.units).given(shot.height!)))} below ${station.name}. Replace these heights with those that you measure.`,
        ]
      : []),
    ...(station.units === 'in' ? ['Marks are in inches here, for example `1/16 right 3/32 up`.'] : []),
  ].join(' ');
}

/** After the words on the lens the sentence continues, and they include the position of the tape. */
function tapeOn({ name, element }: Station, goesOn: boolean): string {
  return `${goesOn ? 'fresh' : 'Fresh'} tape${element.kind === 'lens' ? '' : ` on ${name}`}`;
}

/** `: gantry near, head near`, or `: (1) …; (2) …`; empty for a tape that no carriage moves. */
function numbered(settings: readonly string[]): string {
  if (settings.every((setting) => setting === '')) return '';
  return `: ${settings.length > 1 ? settings.map((setting, k) => `(${k + 1}) ${setting}`).join('; ') : settings[0]}`;
}

/** Every carriage that affects the mark, by what rides on it, so that nobody has to remember the other positions. */
function settingInWords(station: Station, shot: ShotRequest): string {
  return carriagesOf(station)
    .map((carriage) => {
      const { element, rides, from, shortest, units } = carriage;
      const stop = element === station.own?.element ? shot.at : (shot.with?.[element] ?? shortest);
      return typeof stop === 'number'
        ? `${rides} where the tape on ${element} is ${lengthsIn(units).given(stop)} from ${from}`
        : `${rides} ${stopInWords(carriage, stop)}`;
    })
    .join(', ');
}

/** A cell with blank marks; a list if a shot needs more than its stop. */
function cellOf(station: Station, shots: readonly ShotRequest[]): string {
  const isOnce = new Set(shots.map(({ at }) => at)).size === shots.length;
  const plain =
    isOnce &&
    shots.every((shot) => shot.with === undefined && shot.height === undefined && typeof shot.at === 'string');
  const { given } = lengthsIn(station.units);
  const stopInCell = (stop: string | number) => (typeof stop === 'number' ? given(stop) : nameInCell(stop));
  const lines = shots.map(({ at, with: others, height }) => {
    if (plain) return `  ${stopInCell(at)}: `;
    const corner =
      others &&
      `with: {${Object.entries(others)
        .map(([name, place]) => `${nameInCell(name)}: ${stopInCell(place)}`)
        .join(', ')}}`;
    return `  - {${[`at: ${stopInCell(at)}`, corner, height !== undefined && `height: ${given(height)}`, 'mark: '].filter(Boolean).join(', ')}}`;
  });
  return [`marks: ${nameInCell(station.name)}`, 'shots:', ...lines, ''].join('\n');
}

/**
 * Predicted marks of a shot after a move, reading noise included; mm. Tapes on the bed have no centre and are left out,
 * as is a tape that the beam misses.
 */
export function expectations(state: State, estimate: Estimate, step: Shoot, move: Move): Expected[] {
  const station = estimate.system.stations.find(({ name }) => name === step.station)!;
  const { resolution, placing } = state.limits?.reading ?? READING;
  const noise = resolution ** 2 / 12 + placing ** 2;
  return step.shots
    .filter((shot) => shot.height === undefined)
    .flatMap((shot): Expected[] => {
      const predicted = predictMark(estimate, queryAt(station, legsOf(station, shot)), move);
      if (!predicted) return [];
      const { right, up, covariance } = predicted;
      const [rightVariance, upVariance] = [predicted.rightVariance + noise, predicted.upVariance + noise];
      const u = { right: Math.sqrt(rightVariance), up: Math.sqrt(upVariance) };
      return [
        {
          station: station.name,
          at: shot.at,
          with: shot.with ?? {},
          right,
          up,
          u: { ...u, r: covariance / (u.right * u.up) },
          ellipse: ellipse([rightVariance, covariance, upVariance]),
        },
      ];
    });
}

/** Coverage factor for a mark that must be on its tape. */
const COVERAGE = 2;
const SEARCH_STEPS = 20;
/** mm: rounding of a leg that has no name. */
const ROUND_LEG: Readonly<Record<Units, number>> = { mm: 10, in: 12.7 };

/**
 * The longest leg at which the next mark is still on the tape (its centre plus twice its uncertainty inside the
 * aperture), rounded down to 10 mm or half an inch; undefined if that is hardly longer than what was shot.
 */
export function longestLanding(verdict: StationVerdict, estimate: Estimate, demand: Demand): number | undefined {
  const { station, fresh } = verdict;
  const { own } = station;
  if (!own) return undefined;
  const reached = Math.max(
    own.shortest,
    ...shotPoints(fresh)
      .filter(isMark)
      .map((point) => point.carriages[own.element] ?? 0),
  );
  const misses = fresh
    .filter(({ none, height }) => none && height === 0)
    .map(({ carriages }) => ({ carriages, leg: carriages[own.element] ?? Infinity }));
  const missed = Math.min(Infinity, ...misses.map(({ leg }) => leg));
  const wasRequested = misses.some(({ carriages, leg }) =>
    sameCarriages(carriages, carriagesAt(station, { [own.element]: leg })),
  );
  // At a miss the model is wrong: the next leg is half way to it at most. At the far stop a miss is common; short of it
  // the model may be right.
  const isFar = missed > own.longest * 0.999;
  const most = isFar ? own.longest : (reached + missed) / 2;
  const radius = demand.station.element.aperture / 2;
  const lands = (leg: number) => {
    const predicted = predictMark(estimate, queryAt(station, carriagesAt(station, { [own.element]: leg })), NO_MOVE);
    if (!predicted) return false;
    return (
      Math.hypot(predicted.right, predicted.up) +
        COVERAGE * Math.sqrt(Math.max(predicted.rightVariance, predicted.upVariance)) <=
      radius
    );
  };
  const step = ROUND_LEG[station.units];
  const legs = Array.from(
    { length: SEARCH_STEPS },
    (_, i) => Math.floor((most - ((most - reached) * i) / SEARCH_STEPS) / step) * step,
  ).map((leg) => Number(leg.toFixed(1)));
  const longest = legs.find((leg) => !(isFar && wasRequested && leg > own.longest * 0.999) && lands(leg));
  return longest !== undefined && longest > reached * 1.1 ? longest : undefined;
}
