/**
 * The first text of a workbook. Values that were not asked for are guesses and marked as such: a leg has the
 * uncertainty of a guess, and the screws have no places, so that the marks show what a turn does and no sign can be
 * wrong.
 */
import { nameInCell, type Units } from '../model/index.ts';
import { CORNERS, type Answers, type Corner } from './answers.ts';
import type { Mirror } from './beam-paths.ts';
import { planView } from './plan-view.ts';

/** Typical values, in the user's units. */
const GUESSES: Readonly<Record<Units, Guesses>> = {
  mm: {
    leg: 100,
    lensLeg: 60,
    doubt: 20,
    aperture: 20,
    lensAperture: 18,
    focal: '50.8 mm',
    limits: [3, 2, 1.5],
    resolution: '0.5 mm',
  },
  in: {
    leg: 4,
    lensLeg: 2.5,
    doubt: 0.8,
    aperture: 0.8,
    lensAperture: 0.7,
    focal: '2 in',
    limits: [0.12, 0.08, 0.06],
    resolution: '0.02 in',
  },
};

interface Guesses {
  readonly leg: number;
  readonly lensLeg: number;
  /** Standard uncertainty of a leg that was not measured. */
  readonly doubt: number;
  readonly aperture: number;
  readonly lensAperture: number;
  readonly focal: string;
  /** Maximum distance of marks from the centre: at the first mirror, at the others, and as a spread or at the lens. */
  readonly limits: readonly [number, number, number];
  readonly resolution: string;
}

/** The basic checks; the machine's manual has more. */
const CHECKS = `# Before the first shot: move each check that is done from \`open:\` to \`done:\`.
checks: make safe
open:
  - eyewear rated for 10.6 um on everybody in the room
  - covers closed or the beam enclosed, hands out of the path
  - extraction on, cooling on
  - extinguisher at hand, somebody watches
`;

/**
 * @param today ISO date.
 * @returns the text, which ends with an open session and its safety checks, so that a mark comes next
 */
export function workbookText(answers: Answers, today: string, reading: Reading = {}): string {
  return [machine(answers), limits(answers, reading), `session: first alignment\ndate: ${today}\n`, CHECKS].join(
    '---\n',
  );
}

/** How tapes are read, as written, `0.5 mm`; what is absent has the default. */
export interface Reading {
  readonly resolution?: string | undefined;
  readonly placing?: string | undefined;
}

function machine(answers: Answers): string {
  const { name, title, beamPath, units, travel } = answers;
  const guess = GUESSES[units];
  const { length, doubted } = lengthsOf(units);
  const mirror = ({ sends, rides }: Mirror, index: number) => {
    const common = [`aperture: ${length(guess.aperture)}`, `sends: ${sends}`, 'mount: plate'];
    if (!rides) return `  M${index + 1}: {leg: ${doubted(guess.leg)}, ${common.join(', ')}}\n`;
    const stops = `stops: {near: ${doubted(guess.leg)}, far: ${doubted(guess.leg + travel[rides.travel])}}`;
    return `  M${index + 1}:\n${[`rides: ${rides.carriage}`, stops, ...common].map((line) => `    ${line}\n`).join('')}`;
  };
  return (
    `${drawing(answers)}machine: ${nameInCell(name)}\n${title === undefined ? '' : `title: ${JSON.stringify(title)}\n`}${units === 'in' ? 'units: in\n' : ''}source: {wavelength: 10.6 um, fires: ${beamPath.fires}}\n` +
    '# Each leg is a guess: measure it along the beam, from tape to tape.\n' +
    `path:\n${beamPath.mirrors.map(mirror).join('')}` +
    `  lens: {leg: ${doubted(guess.lensLeg)}, aperture: ${length(guess.lensAperture)}, focal: ${guess.focal}}\n` +
    `${nozzleLine(answers)}mounts:\n  plate:\n${mountLines(answers)}`
  );
}

function lengthsOf(units: Units) {
  const length = (value: number) => `${round(value)} ${units}`;
  return { length, doubted: (value: number) => `${length(value)} ± ${length(GUESSES[units].doubt)}` };
}

function drawing({ name, title = name, beamPath }: Answers): string {
  const lines = [`Seen from above: ${title}. You stand at the front.`, '', ...planView(beamPath), ''];
  return lines.map((line) => `${`# ${line}`.trimEnd()}\n`).join('');
}

function nozzleLine({ nozzle, units }: Answers): string {
  if (nozzle === 'none') return '';
  if (nozzle === 'unknown')
    return '  # Measure the nozzle, and take the mark # away: its distance from the lens, and its aperture.\n  # nozzle: {leg: , aperture: }\n';
  const measured = (value: number) => `${Number(value.toFixed(4))} ${units}`;
  return `  nozzle: {leg: ${measured(nozzle.leg)}, aperture: ${measured(nozzle.aperture)}}\n`;
}

/** Neither places nor the direction of a turn are given. */
function mountLines({ screws, emptyCorner, locks }: Answers): string {
  const names = screws === 3 && emptyCorner !== undefined ? cornersBut(emptyCorner) : ['A', 'B', 'C'].slice(0, screws);
  const called =
    screws === 3 && emptyCorner !== undefined
      ? `    # A screw has the name of its corner, as you face the screw heads; ${emptyCorner} has none.\n`
      : '    # Write the letters beside the screws.\n';
  const nuts =
    locks === undefined
      ? '    # locks: nut or none. Without this line it is assumed that there are lock nuts.\n'
      : `    locks: ${locks}\n`;
  return `    # The places of the screws are not given: small trial turns show what the screws do.\n${called}    screws: {${names.map((screw) => `${screw}: {}`).join(', ')}}\n${nuts}`;
}

function cornersBut(empty: Corner): string[] {
  return CORNERS.filter((corner) => corner !== empty).map((corner) => corner.replace(' ', '_'));
}

function limits({ name, beamPath, units, nozzle, plumb }: Answers, reading: Reading): string {
  const {
    limits: [first, others, spread],
    resolution,
  } = GUESSES[units];
  const length = (value: number) => `${value} ${units}`;
  const mirror = ({ rides }: Mirror, index: number) =>
    `  M${index + 1}: {centre: ${length(index === 0 ? first : others)}${rides ? `, spread: ${length(spread)}` : ''}}\n`;
  return (
    `# Maximum distance of a mark from the centre, and between the marks of a station.\nlimits: ${nameInCell(name)}\n` +
    `stations:\n${beamPath.mirrors.map(mirror).join('')}  lens: {centre: ${length(spread)}${plumb === undefined ? '' : `, plumb: ${plumb} mrad`}}\n` +
    (nozzle === 'none' ? '' : '# The nozzle has no limits here, so it is not judged.\n') +
    `reading: {resolution: ${reading.resolution ?? resolution}${reading.placing === undefined ? '' : `, placing: ${reading.placing}`}}\n` +
    'confidence: 90 %\n'
  );
}

/** No more digits than a rule shows. */
function round(value: number): number {
  return Math.round(value * 100) / 100;
}
