/** What is known of a station in words, the same on paper, in a hover and beside the text. mm, mrad. */
import { listed, markInWords, millimetres, percent, placeInCell, placeInWords } from '../alignment/index.ts';
import { isVertical, type Reading, type Requirement, type StationReport } from '../model/index.ts';

/** `within, 96 % sure to be within`; `no limits`. */
export function stateInWords(report: StationReport): string {
  const { state, probability, requirements } = report;
  if (state === 'unread') return state;
  if (state === 'stale') return isShort(report) ? `stale, ${SHORT}` : state;
  if (requirements.length === 0) return NO_LIMITS;
  return probability === undefined ? state : `${state}, ${percent(probability)} sure to be within`;
}

export function stateInBrief(report: StationReport): string {
  if (isShort(report)) return SHORT;
  return report.state === 'borderline' && report.requirements.length === 0 ? NO_LIMITS : report.state;
}

const NO_LIMITS = 'no limits';

const SHORT = 'not shot at every place';

/** Since its marks nothing has moved, but they are not enough. */
function isShort({ state, staleSince }: StationReport): boolean {
  return state === 'stale' && staleSince === undefined;
}

export function frameInWords({ runs, right }: StationReport['frame']): string {
  if (isVertical(runs)) return `Beam runs ${runs}; marks are told in the machine’s words.`;
  return `Beam runs ${runs}; looking along it, right is the machine’s ${right}.`;
}

export function readingInWords(reading: Reading, station: StationReport): string {
  const place = placeInWords(station.carriages, reading.at, reading.with);
  const height = reading.height > 0 ? `${millimetres(reading.height)} mm below, from wherever the tape lies: ` : '';
  const mark = reading.none ? 'no mark: the beam missed the tape' : markInWords(reading.right, reading.up, station.frame);
  return `${place === '' ? '' : `${place}: `}${height}${mark}${station.staleSince === undefined ? '' : ' (stale)'}`;
}

/** A beam that runs down leans; along a travel it slopes. */
export function slopeInWords({ slope, frame, requirements }: StationReport): { readonly name: 'lean' | 'slope'; readonly words: string } | undefined {
  if (!slope) return undefined;
  const { right, up, u } = slope;
  const way = markInWords(right * 1000, up * 1000, frame);
  const sure = `± ${(Math.max(u.right, u.up) * 1000).toFixed(1)}`;
  const words = way === 'in the middle' ? `none that can be read (${sure} mrad)` : `${way} (mrad, each ${sure})`;
  return { name: requirements.some(({ limit }) => limit === 'plumb') ? 'lean' : 'slope', words };
}

export function requirementInWords(requirement: Requirement, { readings, carriages }: StationReport): string {
  const { limit, at, with: others, value, u, probability } = requirement;
  const { scale, unit, max } = measured(requirement);
  const bound = `limit ${millimetres(max)} ${unit}`;
  if (value === undefined || u === undefined) return `not known; ${bound}`;
  const place = at === undefined ? '' : placeInWords(carriages, at, others);
  const read = limit === 'plumb'
    ? readings.some(({ height }) => height > 0)
    : at === undefined || readings.some((reading) => !reading.none && reading.height === 0 && placeInWords(carriages, reading.at, reading.with) === place);
  const where = [place, read ? '' : 'worked out, not shot'].filter(Boolean).join('; ');
  const chance = probability === undefined ? '' : `; within: ${percent(probability)}`;
  return `${(value * scale).toFixed(1)} ± ${(u * scale).toFixed(1)} ${unit}${where === '' ? '' : ` (${where})`}, ${bound}${chance}`;
}

/** What a verdict leaves out; nothing where every station has limits. */
export function unlimitedInWords(stations: readonly StationReport[]): string | undefined {
  const names = stations.filter(({ requirements }) => requirements.length === 0).map(({ name }) => name);
  return names.length === 0 ? undefined : `Nothing is said of ${listed(names)}: no limits.`;
}

/** `centre 8.1 of 2 mm (far)`: what is the farthest from being met. */
export function worstInBrief({ requirements }: StationReport): string | undefined {
  const known = requirements.filter(({ value }) => value !== undefined);
  const worst = known.reduce<Requirement | undefined>((most, one) => (most && (most.probability ?? 1) <= (one.probability ?? 1) ? most : one), undefined);
  if (!worst) return undefined;
  const { scale, unit, max } = measured(worst);
  const place = worst.at === undefined ? '' : placeInCell(worst.at, worst.with);
  return `${worst.limit} ${(worst.value! * scale).toFixed(1)} of ${millimetres(max)} ${unit}${place === '' ? '' : ` (${place})`}`;
}

function measured({ limit, max }: Requirement): { scale: number; unit: 'mm' | 'mrad'; max: number } {
  return limit === 'plumb' ? { scale: 1000, unit: 'mrad', max: max * 1000 } : { scale: 1, unit: 'mm', max };
}
