/**
 * The hover: findings and how to fix them, the result, the meaning of the key. A station is shown as a picture of its
 * tape and in words.
 */
import { findings as table } from '../../../shared/findings.ts';
import type { Finding, Machine, StationReport } from '../../model/index.ts';
import type { Guide } from '../../workbook/index.ts';
import type { Book } from '../book/book-type.ts';
import { entriesOf, isFolded, type IndexedEntry } from '../book/entries-of.ts';
import { keyHelp } from '../cursor/key-help.ts';
import { lightAtTube, lightHere } from '../words/light-here.ts';
import { machineAt } from '../book/machine-at.ts';
import { nodeAt, type CursorNode } from '../cursor/cursor-node.ts';
import { stationDetails } from '../words/station-details.ts';
import { adviceInFull } from '../hints/step-hint.ts';
import { targetImage } from './target-image.ts';
import { turnHint } from '../hints/turn-hint.ts';
import { resultLabel } from '../hints/result-hints.ts';
import { unitsAt } from '../book/units-of.ts';
import { workResults } from '../book/work-results.ts';
import { valuesUsed } from '../cursor/work-names.ts';

/** The text of a hover, and the span that it is about. */
export interface Hover {
  /** Offsets in the file. */
  readonly start: number;
  readonly end: number;
  /** Markdown. */
  readonly text: string;
}

/** Undefined if there is nothing to show at the offset. */
export function hoverAt(book: Book, guide: Guide, offset: number): Hover | undefined {
  const wrong = findingsAt(book, offset);
  const node = nodeAt(book, offset);
  const parts = [
    ...wrong.map(helpOf),
    ...(node ? [...computed(book, node), ...keyHelp(guide, node, unitsAt(book, node.cell))] : []),
  ];
  if (parts.length === 0) return undefined;
  const from = (cell: number) => book.split.cells[cell]?.start ?? 0;
  const { cell, span } = node ?? wrong[0]!;
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

/** Shown in a long log right after a key press, until the result is computed. */
const SOON = '*Still computing.*';

/** The result of the log here. */
function computed(book: Book, node: CursorNode): string[] {
  if (!isFolded(book, node.cell)) return node.kind === 'marks' || node.kind === 'adjust' ? [SOON] : [];
  const logged = entriesOf(book, node.cell)[0];
  const station = logged && stationUnder(node, logged);
  if (logged && station !== undefined) return stationShown(book, station, logged);
  const [top] = node.path;
  switch (node.kind) {
    case 'adjust':
      return top === 'adjust' || top === 'turn' || top === 'shift' ? turnShown(book, logged) : [];
    case 'machine':
      return top === 'source' ? sourceShown(logged, node.path[1]) : [];
    case 'work':
      return logged ? resultShown(book, logged, top) : [];
    case 'session':
    case 'release':
      return top === node.kind ? [book.isDone ? adviceInFull(book) : SOON].filter((text) => text !== '') : [];
    default:
      return [];
  }
}

/** The station of a marks cell, or the one named here. */
function stationUnder({ kind, path, part }: CursorNode, { entry }: IndexedEntry): string | undefined {
  const [top, name] = path;
  if (entry.kind === 'marks' && (top === 'marks' || top === 'shots')) return entry.station;
  if (kind === 'limits' && top === 'stations' && path.length === 2 && part === 'key') return name;
  if (kind === 'machine' && top === 'path' && path.length === 2 && part === 'key') return name;
  if (entry.kind === 'power' && top === 'power') return entry.station;
  if (kind === 'care' && top === 'care' && part === 'value') return entry.kind === 'care' ? entry.part : undefined;
  return undefined;
}

/** At a marks cell as of that cell, elsewhere as of today. */
function stationShown(book: Book, name: string, { entry, index, cell }: IndexedEntry): string[] {
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

function sourceShown(logged: IndexedEntry | undefined, key: string | undefined): string[] {
  return logged?.entry.kind === 'machine'
    ? [lightAtTube(logged.entry.machine, key).join('\n\n')].filter((text) => text !== '')
    : [];
}

function turnShown(book: Book, logged: IndexedEntry | undefined): string[] {
  return logged ? turnHint(book, logged).map(({ tooltip }) => tooltip) : [];
}

function resultShown(book: Book, logged: IndexedEntry, name: string | undefined): string[] {
  const { entry } = logged;
  if (entry.kind !== 'work' || name === undefined) return [];
  const { results, lacks } = workResults(book, { ...logged, entry });
  const label = resultLabel(name, results, lacks, unitsAt(book, logged.cell));
  const used = Object.hasOwn(entry.values, name) ? valuesUsed(book, logged, entry.values[name]!) : [];
  return [[...(label === undefined ? [] : [`\`${name}\` ${label}`]), ...used].join('  \n')].filter(
    (text) => text !== '',
  );
}
