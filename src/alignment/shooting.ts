/** Which tapes to shoot next, the cell to write the marks into, and what they should show. */
import type { Expected, Requirement, ShotRequest, Step } from '../model/index.ts';
import type { Demand } from './demand.ts';
import { ellipse } from './ellipse.ts';
import { predict, type Estimate } from './estimate.ts';
import { NO_MOVE, type Move } from './move.ts';
import { tapeKey } from './observe.ts';
import { areOpposite, placesNeeded, placesOf, queryAt, sameCarriages, type Place } from './places.ts';
import { isMark } from './points.ts';
import { shot, type Standing } from './report.ts';
import type { State, Taken } from './state.ts';
import { carriagesAt, type Station } from './system.ts';
import { READING } from './take.ts';
import { listed, millimetres, nameInCell } from './words.ts';

export type Shoot = Extract<Step, { kind: 'shoot' }>;

/** mm below the lens: two tapes far enough apart to tell a beam out of plumb. The user writes the true heights. */
const HEIGHTS = [20, 150] as const;

/** What a station still lacks to be fresh; all of it where nothing is. */
export function shotsLacking({ station, fresh, lacksPlumb }: Standing): ShotRequest[] {
  const settings = shot(fresh).map((point) => point.carriages);
  const places = areOpposite(station, settings) ? [] : placesLacking(station, fresh);
  return [...places.map(requestAt), ...(lacksPlumb(NO_MOVE) ? heightsOf(station) : [])];
}

/** The corner opposite to one that is there already, else both. */
function placesLacking(station: Station, fresh: readonly Taken[]): readonly Place[] {
  const settings = shot(fresh).map((point) => point.carriages);
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
export function shotsAfresh({ station, lacksPlumb, asked }: Standing, move: Move, locks = false): ShotRequest[] {
  const bed = asked?.limits.plumb !== undefined && (locks || lacksPlumb(move));
  return [...placesNeeded(station).map(requestAt), ...(bed ? heightsOf(station) : [])];
}

/** The head stays where it is between the two. */
function heightsOf(station: Station): ShotRequest[] {
  const [nearest] = placesOf(station);
  return HEIGHTS.map((height) => ({ ...requestAt(nearest!), height }));
}

/** More than two tapes at once are more work than a turn. */
const MOST_AGAIN = 2;

/** What settles a doubt best: the bed where it is the plumb, else of the places that were shot least those of which the model is least sure. */
export function shotsMore(standing: Standing, estimate: Estimate): ShotRequest[] {
  const { station } = standing;
  if (doubtful(standing) === 'plumb') return heightsOf(station);
  const least = timesShot(standing);
  const doubt = (place: Place) => {
    const [rr, , , uu] = predict(estimate, [queryAt(station, place.carriages)], NO_MOVE)?.covariance.data ?? [];
    return rr === undefined || uu === undefined ? 0 : rr + uu;
  };
  const candidates = placesOf(station).filter((place) => timesAt(standing, place) === least);
  const chosen = candidates.toSorted((one, other) => doubt(other) - doubt(one)).slice(0, MOST_AGAIN);
  return candidates.filter((place) => chosen.includes(place)).map(requestAt);
}

/** Surer than this a limit is left alone while another one is in doubt. */
const SETTLED = 0.9;

/** What to read again: of the limits in doubt the one that was read least often, else the one that is least sure to be met. */
function doubtful(standing: Standing): Requirement['limit'] | undefined {
  const chance = ({ probability = 0 }: Requirement) => probability;
  const times = ({ limit }: Requirement) => timesRead(standing, limit);
  const all = standing.report.requirements.toSorted((one, other) => chance(one) - chance(other));
  const open = all.filter((one) => chance(one) < SETTLED).toSorted((one, other) => times(one) - times(other));
  return (open[0] ?? all[0])?.limit;
}

/** The tapes on the bed, or how often the place of the station was shot that was shot least; 0 where some place never was. */
function timesRead(standing: Standing, limit: Requirement['limit'] | undefined): number {
  if (limit === 'plumb') return new Set(standing.fresh.filter(({ height }) => height > 0).map(tapeKey)).size;
  return Math.min(...placesOf(standing.station).map((place) => timesAt(standing, place)));
}

/** How often what is in doubt was shot since something moved. */
export function timesShot(standing: Standing): number {
  return timesRead(standing, doubtful(standing));
}

function timesAt({ fresh }: Standing, place: Place): number {
  return fresh.filter((reading) => reading.height === 0 && sameCarriages(reading.carriages, place.carriages)).length;
}

export function shoot(station: Station, shots: readonly ShotRequest[], why?: string): Shoot {
  const lens = lensOut(station);
  return { kind: 'shoot', station: station.name, shots, say: sayShoot(station, shots, lens), cell: cellOf(station, shots), ...(why !== undefined && { why }), ...(lens !== undefined && { handlesLens: true }) };
}

/** Tape never goes onto a lens, nor behind one that is fitted. */
function lensOut({ name, element, lensBefore }: Station): string | undefined {
  if (element.kind === 'lens') return 'With the lens tube off (witness line first, air hose off) and the tape across the opening under the head:';
  return lensBefore === undefined ? undefined : `With the lens out of its tube, and what carries ${name} back on:`;
}

function sayShoot(station: Station, shots: readonly ShotRequest[], lens: string | undefined): string {
  const tape = tapeOn(station, lens !== undefined);
  const own = shots.filter((shot) => shot.height === undefined);
  const below = shots.filter((shot) => shot.height !== undefined);
  return [
    ...(lens === undefined ? [] : [lens]),
    ...(own.length > 0 ? [`${tape}${own.length > 1 ? ' for each shot, one pulse each' : ', one pulse'}${numbered(own.map((shot) => settingInWords(station, shot)))}.`] : []),
    ...(below.length > 0 ? [`${own.length > 0 ? 'Then one' : 'one'} tape on the bed that stays where it is, ${settingInWords(station, below[0]!)}: one pulse with it ${listed(below.map((shot) => `${shot.height} mm`))} below ${station.name}. Write the heights that you measure in place of these.`] : []),
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
  return station.travels.map((travel) => {
    const stop = travel === station.own ? shot.at : shot.with?.[travel.element] ?? travel.shortest;
    return typeof stop === 'number' ? `${travel.rides} where the tape on ${travel.element} is ${millimetres(stop)} mm from ${travel.from}` : `${travel.rides} ${stop}`;
  }).join(', ');
}

/** Blank places for the marks; a list where a shot needs more than its stop. */
function cellOf(station: Station, shots: readonly ShotRequest[]): string {
  const plain = shots.every((shot) => shot.with === undefined && shot.height === undefined && typeof shot.at === 'string');
  const lines = shots.map(({ at, with: others, height }) => {
    const stop = typeof at === 'number' ? `${millimetres(at)} mm` : nameInCell(at);
    if (plain) return `  ${stop}: `;
    const corner = others && `with: {${Object.entries(others).map(([name, place]) => `${nameInCell(name)}: ${typeof place === 'number' ? `${millimetres(place)} mm` : nameInCell(place)}`).join(', ')}}`;
    return `  - {${[`at: ${stop}`, corner, height !== undefined && `height: ${height} mm`, 'mark: '].filter(Boolean).join(', ')}}`;
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
  return step.shots.filter((shot) => shot.height === undefined).flatMap((shot): Expected[] => {
    const predicted = predict(estimate, [queryAt(station, carriagesOf(station, shot))], move);
    if (!predicted) return [];
    const [right, up] = [predicted.mean[0]!, predicted.mean[1]!];
    const [rr, ru, , uu] = predicted.covariance.data;
    const u = { right: Math.sqrt(rr! + noise), up: Math.sqrt(uu! + noise) };
    return [{ station: station.name, at: shot.at, with: shot.with ?? {}, right, up, u: { ...u, r: ru! / (u.right * u.up) }, ellipse: ellipse([rr! + noise, ru!, uu! + noise]) }];
  });
}

function carriagesOf(station: Station, shot: ShotRequest): Readonly<Record<string, number>> {
  const legs: Record<string, number> = {};
  for (const travel of station.travels) {
    const name = travel === station.own ? shot.at : shot.with?.[travel.element];
    const leg = typeof name === 'number' ? name : travel.stops.get(name ?? '');
    if (leg !== undefined) legs[travel.element] = leg;
  }
  return carriagesAt(station, legs);
}

/** A share of the tape's radius that a mark must be sure to land in. */
const SURE = 2;
const SEARCH_STEPS = 20;

/**
 * The longest leg at which the next mark will still land on the tape (its middle plus twice its uncertainty inside the
 * hole), to the lower 10 mm; undefined where that is hardly longer than what has been shot.
 */
export function longestLanding(standing: Standing, estimate: Estimate, demand: Demand): number | undefined {
  const { station, fresh } = standing;
  const { own } = station;
  if (!own) return undefined;
  const reached = Math.max(own.shortest, ...shot(fresh).filter(isMark).map((point) => point.carriages[own.element] ?? 0));
  const radius = demand.station.element.aperture / 2;
  const lands = (leg: number) => {
    const predicted = predict(estimate, [queryAt(station, carriagesAt(station, { [own.element]: leg }))], NO_MOVE);
    if (!predicted) return false;
    const [rr, , , uu] = predicted.covariance.data;
    return Math.hypot(predicted.mean[0]!, predicted.mean[1]!) + SURE * Math.sqrt(Math.max(rr!, uu!)) <= radius;
  };
  const legs = Array.from({ length: SEARCH_STEPS }, (_, i) => Math.floor((own.longest - ((own.longest - reached) * i) / SEARCH_STEPS) / 10) * 10);
  const longest = legs.find(lands);
  return longest !== undefined && longest > reached * 1.1 ? longest : undefined;
}
