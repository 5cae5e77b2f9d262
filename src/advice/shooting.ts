/** Which tapes to shoot next, the cell to write the marks into, and what they should show. */
import { lengthsIn, type Expected, type ShotRequest, type Step, type Units } from '../model/index.ts';
import { smallestProbability } from '../statistics/index.ts';
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
import { predict, tapeKey, READING, type Estimate, type State, type LoggedReading } from '../estimate/index.ts';
import { listed, nameInCell, stopInWords } from '../words/index.ts';

export type Shoot = Extract<Step, { kind: 'shoot' }>;

/** mm below the lens: two tapes far enough apart to tell a beam out of plumb, in round figures of the units. The user writes the true heights. */
const HEIGHTS: Readonly<Record<Units, readonly [number, number]>> = { mm: [20, 150], in: [0.75 * 25.4, 6 * 25.4] };

/** What a station still lacks to be fresh; all of it where nothing is. */
export function shotsLacking({ station, fresh, lacksPlumb }: StationVerdict): ShotRequest[] {
  const settings = shotPoints(fresh).map((point) => point.carriages);
  const places = areOpposite(station, settings) ? [] : placesLacking(station, fresh);
  return [...places.map(requestAt), ...(lacksPlumb(NO_MOVE) ? heightsOf(station) : [])];
}

/** The corner opposite to one that is there already, else both. */
function placesLacking(station: Station, fresh: readonly LoggedReading[]): readonly Place[] {
  const settings = shotPoints(fresh).map((point) => point.carriages);
  const all = placesOf(station);
  const opposite = all.find((place) => settings.some((setting) => areOpposite(station, [setting, place.carriages])));
  return opposite ? [opposite] : placesNeeded(station);
}

export function requestAt(place: Place): ShotRequest {
  return { at: place.at, ...(Object.keys(place.with).length > 0 && { with: place.with }) };
}

/**
 * The tapes that make a station fresh after a move; plumb is shot again only where nothing will tell it any more.
 * @param locks whether nuts are loosened or tightened besides
 */
export function shotsAfresh({ station, lacksPlumb, demand }: StationVerdict, move: Move, locks = false): ShotRequest[] {
  const bed = demand?.limits.plumb !== undefined && (locks || lacksPlumb(move));
  return [...placesNeeded(station).map(requestAt), ...(bed ? heightsOf(station) : [])];
}

/** The head stays where it is between the two. */
export function heightsOf(station: Station): ShotRequest[] {
  const [nearest] = placesOf(station);
  return HEIGHTS[station.units].map((height) => ({ ...requestAt(nearest!), height }));
}

/** More than two tapes at once are more work than a turn. */
const MOST_AGAIN = 2;
/** A second place is shot with the first where it tells at least this share of what the first does. */
const AS_WELL = 0.5;

/**
 * What settles a doubt best: places whose plain reading disputes the model; else the bed where one tape alone has shown the beam
 * out of plumb, or where the plumb is in doubt; or the places where a limit may fail and a shot would show it.
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

/** Of one further reading, mm. */
function uOf({ fresh }: StationVerdict): number {
  return fresh.length === 0 ? 0.25 : Math.min(...fresh.map(({ u }) => u));
}

interface Scored {
  readonly place: Place;
  readonly score: number;
}

/** How much of each limit's doubt a shot at each place would take away: P (1 − P), by the place's share of the variance. */
function placeScores(demand: Demand, estimate: Estimate, u: number): Scored[] {
  const places = demand.places;
  const predicted = predict(
    estimate,
    places.map((place) => queryAt(demand.station, place.carriages)),
    NO_MOVE,
  );
  if (!predicted) return places.map((place) => ({ place, score: 0 }));
  const { mean, covariance } = predicted;
  const variance = (k: number) =>
    (covariance.data[2 * k * (covariance.columns + 1)]! + covariance.data[(2 * k + 1) * (covariance.columns + 1)]!) / 2;
  const { plumb: _, ...limits } = demand.limits;
  const scores = places.map(() => 0);
  for (const term of termsOf({ places, limits })) {
    const probability = smallestProbability([term], mean, covariance);
    const ends = term.other === undefined ? [term.one] : [term.one, term.other];
    const total = ends.reduce((sum, k) => sum + variance(k), 0);
    for (const k of ends)
      scores[k]! += probability * (1 - probability) * (variance(k) / total) * (variance(k) / (variance(k) + u ** 2));
  }
  return places.map((place, k) => ({ place, score: scores[k]! }));
}

/** The same of the plumb. */
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

/** How often the least shot of these places was shot since something moved; of tapes on the bed, how many there were. */
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

/** Tape never goes onto a lens, nor behind one that is fitted; and none hangs in the way of a shot at the bed. */
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

/** After the words on the lens the sentence goes on, and where the tape goes at a lens is said there. */
function tapeOn({ name, element }: Station, goesOn: boolean): string {
  return `${goesOn ? 'fresh' : 'Fresh'} tape${element.kind === 'lens' ? '' : ` on ${name}`}`;
}

/** `: gantry near, head near`, or `: (1) …; (2) …`; nothing for a tape that no carriage moves. */
function numbered(settings: readonly string[]): string {
  if (settings.every((setting) => setting === '')) return '';
  return `: ${settings.length > 1 ? settings.map((setting, k) => `(${k + 1}) ${setting}`).join('; ') : settings[0]}`;
}

/** Every carriage that moves the mark, by what rides there: nobody has to remember where the others stand. */
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

/** Blank places for the marks; a list where a shot needs more than its stop. */
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
 * What the tapes of a shot should show after a move, reading noise included; mm. Tapes on the bed have no middle of
 * their own and are left out, as is a tape that the beam would miss.
 */
export function expectations(state: State, estimate: Estimate, step: Shoot, move: Move): Expected[] {
  const station = estimate.system.stations.find(({ name }) => name === step.station)!;
  const { resolution, placing } = state.limits?.reading ?? READING;
  const noise = resolution ** 2 / 12 + placing ** 2;
  return step.shots
    .filter((shot) => shot.height === undefined)
    .flatMap((shot): Expected[] => {
      const predicted = predict(estimate, [queryAt(station, legsOf(station, shot))], move);
      if (!predicted) return [];
      const [right, up] = [predicted.mean[0]!, predicted.mean[1]!];
      const [rr, ru, , uu] = predicted.covariance.data;
      const u = { right: Math.sqrt(rr! + noise), up: Math.sqrt(uu! + noise) };
      return [
        {
          station: station.name,
          at: shot.at,
          with: shot.with ?? {},
          right,
          up,
          u: { ...u, r: ru! / (u.right * u.up) },
          ellipse: ellipse([rr! + noise, ru!, uu! + noise]),
        },
      ];
    });
}

/** A share of the tape's radius that a mark must be sure to land in. */
const COVERAGE = 2;
const SEARCH_STEPS = 20;
/** mm: what a leg that nobody has named is rounded to. */
const ROUND_LEG: Readonly<Record<Units, number>> = { mm: 10, in: 12.7 };

/**
 * The longest leg at which the next mark will still land on the tape (its middle plus twice its uncertainty inside the
 * hole), to the lower 10 mm or half inch; undefined where that is hardly longer than what has been shot.
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
  // Where it missed the model is wrong: the next try is half way to there at most. A far stop is missed often; short of it the model may be right.
  const isFar = missed > own.longest * 0.999;
  const most = isFar ? own.longest : (reached + missed) / 2;
  const radius = demand.station.element.aperture / 2;
  const lands = (leg: number) => {
    const predicted = predict(estimate, [queryAt(station, carriagesAt(station, { [own.element]: leg }))], NO_MOVE);
    if (!predicted) return false;
    const [rr, , , uu] = predicted.covariance.data;
    return Math.hypot(predicted.mean[0]!, predicted.mean[1]!) + COVERAGE * Math.sqrt(Math.max(rr!, uu!)) <= radius;
  };
  const step = ROUND_LEG[station.units];
  const legs = Array.from(
    { length: SEARCH_STEPS },
    (_, i) => Math.floor((most - ((most - reached) * i) / SEARCH_STEPS) / step) * step,
  ).map((leg) => Number(leg.toFixed(1)));
  const longest = legs.find((leg) => !(isFar && wasRequested && leg > own.longest * 0.999) && lands(leg));
  return longest !== undefined && longest > reached * 1.1 ? longest : undefined;
}
