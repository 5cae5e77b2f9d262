/**
 * Marks on tape: `1.5 right 2.0 down`, `2 at 4:30`, `centre`, `none`, each with `± LEN`, `size LEN` and `shape WORD`. A
 * mark is read as written; `resolveMark` interprets it on a leg, because the same text can belong to any station. A
 * direction that is not given is *not read*, not zero.
 */
import { DIRECTIONS, isDirection, nearest, type Mark as PlacedMark, type Quantity } from '../../model/index.ts';
import { directedLength, givenTwice, lengthWithin, structure, wrongOrder, type DirectedLength } from './directed.ts';
import type { QuantityContext } from './measured.ts';
import { problem, quoted, read, refuse, shifted, tooLong, type QuantityProblem, type Reading } from './reading.ts';
import { readLength } from './scalars.ts';
import type { Token } from './tokens.ts';

/** The shape of a burn. */
export type Shape = NonNullable<PlacedMark['shape']>;

/** The words for shapes. */
export const SHAPES = ['round', 'oval', 'crescent', 'double'] as const satisfies readonly Shape[];

/** A length in mm toward an hour (1 … 12, minute 0 … 59) of a clock face; [from, to) covers both. */
export interface ClockPlace {
  readonly length: number;
  readonly u?: number;
  readonly hour: number;
  readonly minute: number;
  readonly from: number;
  readonly to: number;
}

/** The place of a mark as written: one or two directed lengths, a time, the centre, or no mark (the beam missed). */
export type WrittenPlace =
  | { readonly kind: 'parts'; readonly parts: readonly DirectedLength[] }
  | { readonly kind: 'clock'; readonly clock: ClockPlace }
  | { readonly kind: 'centre' }
  | { readonly kind: 'none' };

/** A mark as written. */
export interface Mark {
  readonly place: WrittenPlace;
  /** Standard uncertainty of each part, mm, if given after the whole mark; that of a single part is in the part. */
  readonly u?: number;
  /** mm */
  readonly size?: number;
  readonly shape?: Shape;
}

const WORDS = [...DIRECTIONS, 'centre', 'none', 'at', 'size', 'shape'];

/** Problems: `mark.*` (except those of `resolveMark`) and those of a length. */
export function readMark(text: string, context: QuantityContext): Reading<Mark> {
  return tooLong(text) ?? new MarkReader(text, context).read();
}

type Form = Omit<Mark, 'place'>;
type Draft = { -readonly [K in keyof Form]: Form[K] };

class MarkReader {
  private text: string;
  private readonly whole: string;
  private readonly words: readonly Token[];
  private readonly problems: QuantityProblem[];
  private readonly context: QuantityContext;
  private readonly parts: DirectedLength[] = [];
  /** Places other than the parts. */
  private readonly places: WrittenPlace[] = [];
  private readonly mark: Draft = {};
  /** start of the text that no word has consumed */
  private cursor = 0;
  private uncertaintyAt: { readonly from: number; readonly to: number } | undefined;

  constructor(text: string, context: QuantityContext) {
    const structured = structure(text, 'mark');
    this.text = structured.text;
    this.whole = structured.text;
    this.words = structured.words;
    this.problems = structured.problems;
    this.context = context;
    this.uncertainty();
  }

  /** The ± after the mark's place, up to size, shape or the end: removed, so that the rest is read without it. */
  private uncertainty(): void {
    if (!/±|\+-/.test(this.text)) return;
    const [, place, sign, length] = BEHIND_PLACE.exec(this.text) ?? [];
    if (place === undefined || sign === undefined || length === undefined) return;
    const from = place.length;
    const start = from + sign.length;
    const end = start + length.trimEnd().length;
    this.text = this.text.slice(0, from) + ' '.repeat(end - from) + this.text.slice(end);
    const reading = shifted(readLength(length.trimEnd(), this.context, 'positive'), start);
    if (reading.value) this.mark.u = reading.value.value;
    else this.problems.push(...reading.problems);
    this.uncertaintyAt = { from, to: end };
  }

  read(): Reading<Mark> {
    const order = wrongOrder(this.text, this.words, 'mark');
    if (order) return refuse(...this.problems, order);
    this.words.forEach((word, i) => {
      if (word.from >= this.cursor) this.word(word, this.words[i + 1]);
    });
    this.leftover(this.text.length);
    const twice = givenTwice(this.parts, 'mark');
    if (twice) this.problems.push(twice);
    const place = this.problems.length === 0 ? this.onePlace() : undefined;
    if (place) this.checkUncertainty(place);
    return place && this.problems.length === 0 ? read({ place, ...this.mark }) : refuse(...this.problems);
  }

  private word(word: Token, next: Token | undefined): void {
    const start = this.cursor;
    this.cursor = word.to;
    if (isDirection(word.text)) {
      const part = directedLength(this.text, start, word, 'mark', this.context);
      if (Array.isArray(part)) this.problems.push(...part);
      else this.parts.push(part);
    } else if (word.text === 'at') {
      this.clock(start, word, next);
    } else {
      if (WORDS.includes(word.text)) this.leftover(word.from, start);
      if (word.text === 'centre' || word.text === 'none') this.places.push({ kind: word.text });
      else if (word.text === 'size') this.size(word, next);
      else if (word.text === 'shape') this.shape(word, next);
      else this.unknown(word);
    }
  }

  /** Text between two words, or at the end, that is not a length before a direction. */
  private leftover(to: number, from = this.cursor): void {
    const rest = this.text.slice(from, to).trim();
    if (rest === '') return;
    const start = this.text.indexOf(rest, from);
    this.problems.push(problem('mark.direction', start, start + rest.length, { text: quoted(rest) }));
  }

  /** `2 at 4:30`; the time ends at the next word or the end. */
  private clock(start: number, at: Token, next: Token | undefined): void {
    const end = next?.from ?? this.text.length;
    this.cursor = end;
    if (this.text.slice(start, at.from).trim() === '') {
      this.problems.push(problem('mark.length', at.from, at.to, { word: 'at' }));
      return;
    }
    const length = lengthWithin(this.text, start, at.from, 'mark', this.context);
    const time = this.text.slice(at.to, end).trim();
    const [, hour, minute] = (/^(\d{1,2}):(\d{2})$/.exec(time) ?? []).map(Number);
    const isTime = hour !== undefined && minute !== undefined && hour >= 1 && hour <= 12 && minute < 60;
    if (Array.isArray(length)) this.problems.push(...length);
    else if (length.value < 0) this.problems.push(this.negative(start, at));
    else if (isTime)
      this.places.push({
        kind: 'clock',
        clock: {
          ...written(length),
          hour,
          minute,
          from: this.firstFrom(start),
          to: at.to + this.text.slice(at.to, end).trimEnd().length,
        },
      });
    if (!isTime) {
      const from = time === '' ? at.from : this.text.indexOf(time, at.to);
      const to = time === '' ? at.to : from + time.length;
      this.problems.push(problem('mark.clock', from, to, { text: quoted(time) }, onClock(time)));
    }
  }

  private negative(start: number, at: Token): QuantityProblem {
    const from = this.firstFrom(start);
    return problem('quantity.sign', from, at.from, {
      text: quoted(this.text.slice(from, at.from)),
      must: 'not negative',
    });
  }

  private firstFrom(start: number): number {
    return start + this.text.slice(start).search(/\S/);
  }

  private size(word: Token, next: Token | undefined): void {
    // `size 6 1.5 right`: the size is one number with its unit; what follows is the length before the next word
    const body = /^\s*\d[\d.,]*(?:\s+\d+\/\d+|\/\d+)?\s*(?:mm|cm|um|in)?(?![\w.])/.exec(this.text.slice(word.to));
    const end = body ? word.to + body[0].length : (next?.from ?? this.text.length);
    this.cursor = end;
    const reading = shifted(readLength(this.text.slice(word.to, end), this.context, 'positive'), word.to);
    if (reading.value) this.mark.size = reading.value.value;
    else this.problems.push(...reading.problems);
  }

  private shape(word: Token, next: Token | undefined): void {
    const follows = next && this.text.slice(word.to, next.from).trim() === '' ? next : undefined;
    const at = follows ?? word;
    this.cursor = at.to;
    if (follows && isShape(follows.text)) {
      this.mark.shape = follows.text;
      return;
    }
    const suggestion = follows && nearest(follows.text, SHAPES);
    const facts = { word: quoted(follows?.text ?? ''), known: SHAPES.join(', '), ...(suggestion && { suggestion }) };
    this.problems.push(problem('mark.shape', at.from, at.to, facts, suggestion));
  }

  private unknown(word: Token): void {
    const suggestion = nearest(word.text, WORDS);
    const facts = { word: quoted(word.text), ...(suggestion && { suggestion }) };
    this.problems.push(problem('mark.word', word.from, word.to, facts, suggestion));
  }

  private checkUncertainty(place: WrittenPlace): void {
    const { u } = this.mark;
    const lengths = place.kind === 'parts' ? place.parts : place.kind === 'clock' ? [place.clock] : [];
    const own = lengths.find((part) => part.u !== undefined);
    const { from, to } = this.uncertaintyAt ?? own ?? { from: 0, to: 0 };
    const refused = (reason: string) =>
      this.problems.push(problem('mark.uncertainty', from, to, { text: quoted(this.whole.slice(from, to)), reason }));
    if (u !== undefined && place.kind === 'none') refused('a mark that is not there has no ±');
    else if (u !== undefined && own) refused('a part already has a ±');
    else if (own?.u === 0) refused('± must be positive');
  }

  private onePlace(): WrittenPlace | undefined {
    const places = [...(this.parts.length > 0 ? [{ kind: 'parts', parts: this.parts } as const] : []), ...this.places];
    if (places.length === 1) return places[0];
    const code = places.length === 0 ? 'mark.unreadable' : 'mark.mixed';
    this.problems.push(problem(code, 0, this.text.length, { text: quoted(this.text) }));
    return undefined;
  }
}

/** A direction, a clock time, `centre` or `none`; then ±, and a length up to `size`, `shape` or the end. */
const BEHIND_PLACE = new RegExp(
  `^(.*(?:\\b(?:${DIRECTIONS.join('|')}|centre|none)|\\d:\\d\\d)\\s*)(±|\\+-)((?:(?!\\b(?:${[...DIRECTIONS, 'size', 'shape'].join('|')})\\b).)*)(?=$|size\\b|shape\\b)`,
  's',
);

function written({ value, u }: Quantity): { length: number; u?: number } {
  return u === undefined ? { length: value } : { length: value, u };
}

function isShape(word: string): word is Shape {
  return (SHAPES as readonly string[]).includes(word);
}

/** The probable meaning of a time that no clock face shows: `3` → `3:00`, `15:30` → `3:30`, `0:30` → `12:30`. */
function onClock(time: string): string | undefined {
  const [, hour, minute] = /^(\d{1,2})(?::(\d{2}))?$/.exec(time) ?? [];
  if (hour === undefined || Number(hour) > 23 || Number(minute ?? 0) > 59) return undefined;
  return `${Number(hour) % 12 || 12}:${minute ?? '00'}`;
}
