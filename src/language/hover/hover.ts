/**
 * What is known of the thing under the cursor: what is wrong with it and how to mend it, what it came to, what the key
 * means. For a station the tape is drawn, with the same in words.
 */
import { findings as table } from '../../../shared/findings.ts';
import type { Finding, Machine, StationReport } from '../../model/index.ts';
import type { Guide } from '../../workbook/index.ts';
import type { Book } from '../book/book-type.ts';
import { entriesOf, isFolded, type Standing } from '../book/entries-of.ts';
import { explained } from '../cursor/explained.ts';
import { lightAtTube, lightHere } from '../words/light-here.ts';
import { machineAt } from '../book/machine-at.ts';
import { spotAt, type Spot } from '../cursor/spot.ts';
import { stationDetails } from '../words/station-details.ts';
import { adviceInFull } from '../hints/step-hint.ts';
import { targetImage } from './target-image.ts';
import { turnHint } from '../hints/turn-hint.ts';
import { saidOf } from '../hints/result-hints.ts';
import { unitsAt } from '../book/units-of.ts';
import { workResults } from '../book/work-results.ts';
import { valuesUsed } from '../cursor/work-names.ts';

export interface Hover {
  /** Offsets in the file. */
  readonly start: number;
  readonly end: number;
  /** Markdown. */
  readonly text: string;
}

export function hoverAt(book: Book, guide: Guide, offset: number): Hover | undefined {
  const wrong = findingsAt(book, offset);
  const spot = spotAt(book, offset);
  const parts = [
    ...wrong.map(helpOf),
    ...(spot ? [...computed(book, spot), ...explained(guide, spot, unitsAt(book, spot.cell))] : []),
  ];
  if (parts.length === 0) return undefined;
  const from = (cell: number) => book.split.cells[cell]?.start ?? 0;
  const { cell, span } = spot ?? wrong[0]!;
  return { start: from(cell) + span.start, end: from(cell) + span.end, text: parts.join('\n\n---\n\n') };
}

function findingsAt(book: Book, offset: number): Finding[] {
  return (book.isDone ? book.findings() : book.findingsSoFar()).filter(({ cell, span }) => {
    const from = book.split.cells[cell]?.start ?? 0;
    return from + span.start <= offset && offset <= from + span.end;
  });
}

function helpOf({ code }: Finding): string {
  return `**${code}** ${table[code].help}`;
}

/** Right after a key in a long log: nobody waits for what follows from it. */
const SOON = '*Still computing.*';

/** What the log makes of it. */
function computed(book: Book, spot: Spot): string[] {
  if (!isFolded(book, spot.cell)) return spot.kind === 'marks' || spot.kind === 'adjust' ? [SOON] : [];
  const standing = entriesOf(book, spot.cell)[0];
  const station = standing && stationUnder(spot, standing);
  if (standing && station !== undefined) return stationShown(book, station, standing);
  const [top] = spot.path;
  switch (spot.kind) {
    case 'adjust':
      return top === 'adjust' || top === 'turn' || top === 'shift' ? turnShown(book, standing) : [];
    case 'machine':
      return top === 'source' ? sourceShown(standing, spot.path[1]) : [];
    case 'work':
      return standing ? resultShown(book, standing, top) : [];
    case 'session':
    case 'release':
      return top === spot.kind ? [book.isDone ? adviceInFull(book) : SOON].filter((text) => text !== '') : [];
    default:
      return [];
  }
}

/** The station that a marks cell is about, or whose name stands here. */
function stationUnder({ kind, path, part }: Spot, { entry }: Standing): string | undefined {
  const [top, name] = path;
  if (entry.kind === 'marks' && (top === 'marks' || top === 'shots')) return entry.station;
  if (kind === 'limits' && top === 'stations' && path.length === 2 && part === 'key') return name;
  if (kind === 'machine' && top === 'path' && path.length === 2 && part === 'key') return name;
  if (entry.kind === 'power' && top === 'power') return entry.station;
  if (kind === 'care' && top === 'care' && part === 'value') return entry.kind === 'care' ? entry.part : undefined;
  return undefined;
}

/** As of the cell for marks, as of today where the station is described. */
function stationShown(book: Book, name: string, { entry, index, cell }: Standing): string[] {
  const isMoment = entry.kind === 'marks';
  if (!isMoment && !book.isDone) return [SOON];
  const count = isMoment ? index + 1 : book.workbook.entries.length;
  const report = book.log.report(name, count);
  const machine = machineAt(book, isMoment ? cell : Infinity);
  if (!report || !machine) return [];
  const image = report.readings.some(({ height, none }) => height === 0 && !none) ? [targetImage(report, machine)] : [];
  return [[...image, ...stationDetails(report), ...beamShown(machine, report)].join('\n\n')];
}

function beamShown(machine: Machine, report: StationReport): string[] {
  const light = lightHere(machine, report);
  return light.length === 0 ? [] : [['Beam:', ...light.map((line) => `- ${line}`)].join('\n')];
}

function sourceShown(standing: Standing | undefined, key: string | undefined): string[] {
  return standing?.entry.kind === 'machine'
    ? [lightAtTube(standing.entry.machine, key).join('\n\n')].filter((text) => text !== '')
    : [];
}

function turnShown(book: Book, standing: Standing | undefined): string[] {
  return standing ? turnHint(book, standing).map(({ tooltip }) => tooltip) : [];
}

function resultShown(book: Book, standing: Standing, name: string | undefined): string[] {
  const { entry } = standing;
  if (entry.kind !== 'work' || name === undefined) return [];
  const { results, lacks } = workResults(book, { ...standing, entry });
  const said = saidOf(name, results, lacks, unitsAt(book, standing.cell));
  const used = Object.hasOwn(entry.values, name) ? valuesUsed(book, standing, entry.values[name]!) : [];
  return [[...(said === undefined ? [] : [`\`${name}\` ${said}`]), ...used].join('  \n')].filter((text) => text !== '');
}
