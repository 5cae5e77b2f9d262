/** The sign of a machine: the state of its stations that matters most, or what stops the work. */
import { percent } from '../../words/index.ts';
import { severity, VERDICT_SIGNS, type Evaluation, type StationState, type VerdictSign } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { adviceNow } from '../hints/advice-now.ts';
import { shortState } from '../words/station-words.ts';

export function signOf({ verdict, stations, unexplained }: Evaluation): VerdictSign {
  if (verdict === 'blocked') return 'blocked';
  if (unexplained > 0) return 'unexplained';
  return VERDICT_SIGNS.find((sign) => stations.some(({ state }) => state === sign)) ?? 'unread';
}

/** Stations that are named; the rest are counted. */
const MOST = 3;

/** Its word first: `outside: M3`, `borderline: M3 86 %`, `within`, `do not fire: M2 cracked`. */
export function signInWords(sign: VerdictSign, book: Book): string {
  const { stations, unexplained } = book.evaluation();
  if (sign === 'blocked') return whyBlocked(book);
  if (sign === 'unexplained') return `unexplained: ${unexplained === 1 ? '1 mark' : `${unexplained} marks`}`;
  const word = sign === 'incomplete' ? 'incomplete' : shortState(sign);
  const own = stations.filter(({ state }) => state === sign);
  if (NAMELESS.has(sign) || own.length === stations.length) return word;
  const named = own.slice(0, MOST).map(({ name, state, probability }) => nameWith(name, state, probability));
  const rest = own.length > MOST ? [`${own.length - MOST} more`] : [];
  return `${word}: ${[...named, ...rest].join(', ')}`;
}

const NAMELESS: ReadonlySet<VerdictSign> = new Set(['within', 'unlimited']);

function nameWith(name: string, state: StationState, probability: number | undefined): string {
  return state === 'borderline' && probability !== undefined ? `${name} ${percent(probability)}` : name;
}

function whyBlocked(book: Book): string {
  const unfit = book.findingsNow().find((finding) => finding.code === 'care.unfit' && severity(finding) === 'error');
  return unfit ? `do not fire: ${unfit.facts['part']} ${unfit.facts['found']}` : adviceNow(book).sentence;
}
