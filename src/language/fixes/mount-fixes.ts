/**
 * Corrects a mount description that its responses contradict: `in` reversed, another pitch, two screws' places swapped,
 * left and right of every place swapped. No fix if the machine is described in another file.
 */
import { child, isBelow, keysOf, pathTo, type Finding, type Path, type Span } from '../../model/index.ts';
import { readTree, type Place } from '../../workbook/index.ts';
import type { Book } from '../book/book-type.ts';
import type { Change, Fix } from './fix.ts';

export function mountFixes(book: Book, finding: Finding): Fix[] {
  if (finding.code !== 'mount.contradicted') return [];
  const machine = book.last('machine', finding.cell);
  const cell = machine && book.split.cells[machine.cell];
  if (!cell) return [];
  const text = cell.readings[0] ?? '';
  const changes = changesOf(finding.facts, { text, places: readTree(text).places }).map(
    ({ span, text: put }): Change => ({ start: cell.start + span.start, end: cell.start + span.end, text: put }),
  );
  return changes.length === 0 ? [] : [{ title: titleOf(finding.facts), changes, finding, isPreferred: true }];
}

type Kind = 'in' | 'mirrored' | 'pitch' | 'names';

function titleOf({ key = '', fix = '' }: Finding['facts']): string {
  switch (kindOf(key)) {
    case 'in':
    case 'pitch':
      return `Write ${fix}`;
    case 'mirrored':
      return 'Swap left and right of every place';
    case 'names':
      return `Swap the places of ${key}`;
  }
}

function kindOf(key: string): Kind {
  if (key === 'in' || key === 'mirrored') return key;
  return key.startsWith('pitch') ? 'pitch' : 'names';
}

interface Cell {
  readonly text: string;
  readonly places: ReadonlyMap<Path, Place>;
}

interface Put {
  readonly span: Span;
  readonly text: string;
}

function changesOf({ mount = '', key = '', fix = '' }: Finding['facts'], cell: Cell): readonly Put[] {
  const at = pathTo('mounts', mount);
  switch (kindOf(key)) {
    case 'in':
      return valueAt(cell, child(at, 'in'), worded(fix));
    case 'pitch':
      return pitch(cell, at, worded(fix));
    case 'mirrored':
      return [...cell.places]
        .filter(([path]) => isBelow(path, at) && keysOf(path).at(-1) === 'right')
        .map(([, { span }]) => ({ span, text: negated(cell.text.slice(span.start, span.end)) }));
    case 'names':
      return exchanged(cell, child(at, 'screws'), key.split(' and '));
  }
}

/** The value in `` `in: away from beam` ``. */
function worded(fix: string): string {
  return fix.replaceAll('`', '').replace(/^\w+: /, '');
}

function valueAt({ places }: Cell, path: Path, text: string): readonly Put[] {
  const place = places.get(path);
  return place ? [{ span: place.span, text }] : [];
}

/** The pitch replaces a named thread, but not a left-hand one, which contains more information. */
function pitch(cell: Cell, at: Path, text: string): readonly Put[] {
  const written = valueAt(cell, child(at, 'pitch'), text);
  const thread = cell.places.get(child(at, 'thread'));
  if (written.length > 0 || !thread?.key || /\bLH\b/i.test(cell.text.slice(thread.span.start, thread.span.end)))
    return written;
  return [{ span: { start: thread.key.start, end: thread.span.end }, text: `pitch: ${text}` }];
}

/** The names are swapped, so that comments beside the places stay. */
function exchanged({ places }: Cell, at: Path, names: readonly string[]): readonly Put[] {
  const [one, other] = names.map((name) => places.get(child(at, name))?.key);
  return one && other
    ? [
        { span: one, text: names[1]! },
        { span: other, text: names[0]! },
      ]
    : [];
}

/** `-22 mm` from `22 mm`; arithmetic is negated as a whole, without its uncertainty. */
function negated(length: string): string {
  const [, value = length, doubt = ''] = /^(.*?)(\s*(?:±|\+-).*)?$/s.exec(length)!;
  if (/^-\s*[\d.]/.test(value) && isPlain(value.slice(1))) return `${value.slice(1).trim()}${doubt}`;
  return isPlain(value) ? `-${value}${doubt}` : `-(${value})${doubt}`;
}

/** A number with its unit and no sign. */
function isPlain(value: string): boolean {
  return /^[\s\d./]*[a-z]*\s*$/i.test(value);
}
