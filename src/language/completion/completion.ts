/**
 * Completions at the cursor, the likeliest first: missing keys, names, words, units, and the values of the advised
 * step.
 */
import { firstAt } from '../../cells/index.ts';
import {
  clockSense,
  mountOf,
  turnInCell,
  DIRECTIONS,
  isKind,
  KINDS,
  type Kind,
  type Machine,
  type Step,
  type Units,
} from '../../model/index.ts';
import { typingAt, type Guide, type Typing } from '../../workbook/index.ts';
import { shiftInWords } from '../../words/index.ts';
import { arrivesAt } from '../book/arrives-at.ts';
import type { Book } from '../book/book-type.ts';
import { cellAt, entriesOf, isFolded } from '../book/entries-of.ts';
import { signedCells } from '../book/signed.ts';
import { inYaml } from '../cursor/key-help.ts';
import { lineStartAt } from '../book/lines.ts';
import { machineAt } from '../book/machine-at.ts';
import { markWords, namesFor } from '../cursor/names-for.ts';
import { skeletons } from './skeletons.ts';
import { stepsNow } from '../hints/step-hint.ts';
import { unitsAt } from '../book/units-of.ts';
import { workNames } from '../cursor/work-names.ts';
import type { Completion } from './completion-type.ts';

type Offer = Omit<Completion, 'start' | 'end' | 'isSnippet'> & {
  readonly isSnippet?: boolean /** Characters before the cursor that it replaces, where not all of the value. */;
  readonly replaces?: number;
};

/** @param today ISO 8601; absent if unknown */
export function completionsAt(book: Book, guide: Guide, offset: number, today?: string): Completion[] {
  // No offer after `---`, because Enter there shall end the line.
  if (/^-{1,3}$/.test(book.text.slice(lineStartAt(book.text, offset), offset))) return [];
  const cell = cellAt(book, offset);
  const current = book.split.cells[cell];
  if (isSigned(book, cell)) return [];
  if (!current) return placedAt(skeletons(undefined, guide), offset, offset, '');
  const at = offset - current.start;
  const typing = current.readings.map((reading) => typingAt(reading, at)).find((one) => one !== undefined);
  if (!typing)
    return isBlankLine(book.text, offset)
      ? placedAt(skeletons(readyEvaluation(book, cell), guide), offset, offset, '')
      : [];
  return placedAt(offers(book, guide, cell, typing, today), offset - typing.before.length, offset, typing.before);
}

/** Nothing is offered in what was signed; the machine and the limits hold for later visits too. */
function isSigned(book: Book, cell: number): boolean {
  return signedCells(book).some(({ from, to }) => from <= cell && cell < to) && !isOfAllVisits(book, cell);
}

function isOfAllVisits(book: Book, cell: number): boolean {
  return entriesOf(book, cell, cell + 1).some(({ entry }) => {
    const kind = entry.kind === 'unread' ? entry.of : entry.kind;
    return kind === undefined || kind === 'machine' || kind === 'limits';
  });
}

function isBlankLine(text: string, offset: number): boolean {
  return /(^|\n)$/.test(text.slice(0, offset)) && /^\s*(\n|$)/.test(text.slice(offset));
}

function placedAt(offers: readonly Offer[], start: number, end: number, before: string): Completion[] {
  return offers.map(({ isSnippet = false, replaces, ...offer }) => ({
    ...offer,
    isSnippet,
    start: replaces === undefined ? start : start + before.length - replaces,
    end,
  }));
}

/** The evaluation before a cell, if it is computed already. */
function readyEvaluation(book: Book, cell: number) {
  return isFolded(book, cell - 1) ? book.evaluation(firstAt(book.workbook.entries, cell)) : undefined;
}

function offers(book: Book, guide: Guide, cell: number, typing: Typing, today: string | undefined): Offer[] {
  const { path, part, present, top } = typing;
  const kind =
    KINDS.find((one) => one !== 'note' && (Object.hasOwn(top, one) || present.includes(one))) ??
    (present.includes('note') ? 'note' : path[0] !== undefined && isKind(path[0]) ? path[0] : undefined);
  const machine = machineAt(book, cell);
  if (kind === undefined)
    return part === 'key' && path.length === 0 ? skeletons(readyEvaluation(book, cell), guide) : [];
  if (part === 'value') return values({ book, cell, guide, kind, machine, typing, today });
  // After a complete cell the next one may begin.
  const next =
    path.length === 0 && typing.before === ''
      ? skeletons(readyEvaluation(book, cell + 1), guide).map((offer) => ({ ...offer, text: `---\n${offer.text}` }))
      : [];
  return [...keys(guide, kind, machine, typing), ...next];
}

function keys(guide: Guide, kind: Kind, machine: Machine | undefined, { path, present, top, flow }: Typing): Offer[] {
  const there = new Set(present);
  const names = machine ? namesFor(machine, kind, path, 'key', top) : [];
  const named = names
    .filter(({ name }) => !there.has(name))
    .map(({ name, what }): Offer => ({ label: name, kind: 'name', text: `${name}: `, detail: what }));
  const known = guide.at(kind, path)?.keys ?? [];
  const free = known
    .filter(({ name }) => !there.has(name) && name !== kind)
    .sort((one, other) => Number(other.required) - Number(one.required));
  return [
    ...named,
    ...free.map(
      ({ name, description, examples, block, required }): Offer => ({
        label: name,
        kind: 'key',
        text: block && !flow ? `${name}:\n  ` : `${name}: `,
        ...(required && { detail: 'needed' }),
        ...(description !== undefined && {
          documentation:
            examples[0] === undefined ? description : `${description}\n\n\`${name}: ${inYaml(examples[0])}\``,
        }),
      }),
    ),
  ];
}

interface ValueContext {
  readonly book: Book;
  readonly cell: number;
  readonly guide: Guide;
  readonly kind: Kind;
  readonly machine: Machine | undefined;
  readonly typing: Typing;
  readonly today: string | undefined;
}

function values({ book, cell, guide, kind, machine, typing, today }: ValueContext): Offer[] {
  const { path, before, top } = typing;
  const guidance = guide.at(kind, path);
  const description = guidance?.description;
  const documented = description === undefined ? {} : { documentation: description };
  const names = machine ? namesFor(machine, kind, path, 'value', top) : [];
  const last = path.at(-1);
  const first = advised(book, cell, kind, typing);
  const advisedLabels = new Set(first.map(({ label }) => label));
  return [
    ...(last === 'date' && today !== undefined
      ? [{ label: today, kind: 'value' as const, text: today, detail: 'today' }]
      : []),
    ...first,
    ...names
      .filter(({ name }) => !advisedLabels.has(name))
      .map(({ name, what }): Offer => ({ label: name, kind: 'name', text: name, detail: what })),
    ...(guidance?.words ?? [])
      .filter((word) => !advisedLabels.has(String(word)))
      .map((word): Offer => ({ label: String(word), kind: 'word', text: String(word), ...documented })),
    ...words(kind, machine, typing),
    ...(kind === 'work' && last !== 'work' && machine ? inArithmetic(machine, typing) : []),
    ...units(kind, before, last),
    // Examples help if there are no names to offer.
    ...(names.length === 0 && before.trim() === '' && guidance?.words.length === 0
      ? guidance.examples.slice(0, 5).map(
          (example): Offer => ({
            label: inYaml(example),
            kind: 'value',
            text: inYaml(example),
            detail: 'example',
            ...documented,
          }),
        )
      : []),
  ];
}

/** The turn, shift or lock of the advised step, and its part. */
function advised(book: Book, cell: number, kind: Kind, { path, top, before }: Typing): Offer[] {
  if (before.trim() !== '' || path[0] === undefined || !ADVISED.has(`${kind} ${path[0]}`)) return [];
  const texts = stepsNow(readyEvaluation(book, cell) ?? NO_STEPS).flatMap(
    (step) => stepValue(step, kind, path, top['adjust'], unitsAt(book))?.map((text) => [text, step.say] as const) ?? [],
  );
  return [...new Map(texts)].map(
    ([text, say]): Offer => ({ label: text, kind: 'value', text, detail: 'advised now', documentation: say }),
  );
}

const ADVISED: ReadonlySet<string> = new Set([
  'adjust adjust',
  'adjust turn',
  'adjust shift',
  'adjust lock',
  'marks marks',
]);

/** The value of a step for this place. */
function stepValue(
  step: Step,
  kind: Kind,
  [top, screw]: readonly string[],
  part: string | undefined,
  units: Units,
): string[] | undefined {
  if (kind === 'marks') return step.kind === 'shoot' ? [step.station] : undefined;
  if (step.kind !== 'turn' && step.kind !== 'shift' && step.kind !== 'lock') return undefined;
  if (top === 'adjust') return [step.part];
  if (step.part !== part) return undefined;
  switch (step.kind) {
    case 'turn':
      return top !== 'turn'
        ? undefined
        : screw === undefined
          ? [`{${step.screw}: ${turnInCell(step.turns)}}`]
          : screw === step.screw
            ? [turnInCell(step.turns)]
            : undefined;
    case 'shift':
      return top === 'shift' ? [shiftInWords(step.by, units)] : undefined;
    case 'lock':
      return top === 'lock' ? [step.to] : undefined;
  }
}

const NO_STEPS = {
  steps: [],
  verdict: 'continue',
  stations: [],
  expected: [],
  learnt: [],
  findings: [],
  unexplained: 0,
} as const;

/** Names that can be an operand: those of the cell's lines, then those of the machine and the log. */
function inArithmetic(machine: Machine, { before, present, path }: Typing): Offer[] {
  const word = /(?<![\w.])[\w.]*$/.exec(before)![0].replace(/^[^A-Za-z]+/, '');
  if (/[\w)]\s+$/.test(before.slice(0, before.length - word.length))) return [];
  const above = present
    .filter((name) => name !== 'work' && name !== path.at(-1))
    .map((name) => ({ name, what: 'a line of this cell' }));
  return [...above, ...workNames(machine), { name: 'sqrt', what: 'the square root of the value in brackets' }].map(
    ({ name, what }): Offer => ({ label: name, kind: 'name', text: name, detail: what, replaces: word.length }),
  );
}

/** Words that follow a number. */
function words(kind: Kind, machine: Machine | undefined, { path, top, before }: Typing): Offer[] {
  const word = /(?<![A-Za-z])[A-Za-z]*$/.exec(before)![0];
  const offer = (text: string, detail: string): Offer => ({
    label: text,
    kind: 'word',
    text,
    replaces: word.length,
    detail,
  });
  const preceding = before.slice(0, before.length - word.length);
  if (kind === 'marks' && path[0] === 'shots' && (path.length !== 3 || path[2] === 'mark')) {
    const runs = machine && top['marks'] !== undefined ? arrivesAt(machine, top['marks']) : undefined;
    if (preceding.trim() === '') return [offer('centre', 'centred'), offer('none', 'the beam missed the tape')];
    return /\d\s+$|\d\s*[a-z]+\s+$/.test(preceding) && runs
      ? markWords(runs)
          .filter((one) => !new RegExp(`\\b${one}\\b`).test(preceding))
          .map((one) => offer(one, 'looking along the beam'))
      : [];
  }
  if (kind === 'adjust' && path[0] === 'turn') {
    const hand = machine && mountOf(machine, top['adjust'] ?? '')?.hand;
    if (preceding.trim() === '')
      return (['in', 'out'] as const).map((way) =>
        offer(way, `${clockSense(way === 'in' ? 1 : -1, hand)}${way === 'in' ? ', the tip advances' : ''}`),
      );
    return /\d\s+$/.test(preceding) ? ['turn', 'deg', 'flats'].map((one) => offer(one, 'how far')) : [];
  }
  if (kind === 'adjust' && path[0] === 'shift' && /\d\s*(mm|in)\s+$/.test(preceding))
    return DIRECTIONS.map((one) => offer(one, 'direction of the machine'));
  return [];
}

const UNITS: readonly (readonly [pattern: RegExp, units: readonly string[]])[] = [
  [
    /^(leg|aperture|inset|focal|diameter|pitch|knob|centre|spread|resolution|placing|height|exit|tail|size|right|up|near|far|shift)$/,
    ['mm', 'in'],
  ],
  [/^(wavelength)$/, ['um', 'nm']],
  [/^(divergence|plumb)$/, ['mrad', 'deg']],
  [/^(power|reading)$/, ['W', '%']],
  [/^(time)$/, ['ms', 's']],
  [/^(confidence|doubt)$/, ['%']],
  [/^(hours)$/, ['h']],
];

function units(kind: Kind, before: string, key: string | undefined): Offer[] {
  const word = /(?<![A-Za-z%])[A-Za-z%]*$/.exec(before)![0];
  if (kind === 'marks' || !/\d\s*$/.test(before.slice(0, before.length - word.length)) || key === undefined) return [];
  const current = UNITS.find(([pattern]) => pattern.test(key))?.[1] ?? [];
  return current.map((unit): Offer => ({ label: unit, kind: 'unit', text: unit, replaces: word.length }));
}
