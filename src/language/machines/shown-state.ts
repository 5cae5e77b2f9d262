/** What is shown of a machine: the state of its stations that matters most, or what stops the work. */
import { percent } from '../../words/index.ts';
import { severity, SHOWN_STATES, type Evaluation, type StationState, type ShownState } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { adviceNow } from '../hints/advice-now.ts';
import { shortState } from '../words/station-words.ts';

export function shownState({ verdict, stations, unexplained }: Evaluation): ShownState {
  if (verdict === 'blocked') return 'blocked';
  if (unexplained > 0) return 'unexplained';
  return SHOWN_STATES.find((shown) => stations.some(({ state }) => state === shown)) ?? 'unread';
}

/** Stations that are named; the rest are counted. */
const MOST = 3;

/** Its word first: `outside: M3`, `borderline: M3 86 %`, `within`, `do not fire: M2 cracked`. */
export function shownInWords(shown: ShownState, book: Book): string {
  const { stations, unexplained } = book.evaluation();
  if (shown === 'blocked') return whyBlocked(book);
  if (shown === 'unexplained') return `unexplained: ${unexplained === 1 ? '1 mark' : `${unexplained} marks`}`;
  const word = shown === 'incomplete' ? shown : shortState(shown);
  const own = stations.filter(({ state }) => state === shown);
  if (NAMELESS.has(shown) || own.length === stations.length) return word;
  const named = own.slice(0, MOST).map(({ name, state, probability }) => nameWith(name, state, probability));
  const rest = own.length > MOST ? [`${own.length - MOST} more`] : [];
  return `${word}: ${[...named, ...rest].join(', ')}`;
}

const NAMELESS: ReadonlySet<ShownState> = new Set(['within', 'unlimited']);

function nameWith(name: string, state: StationState, probability: number | undefined): string {
  return state === 'borderline' && probability !== undefined ? `${name} ${percent(probability)}` : name;
}

function whyBlocked(book: Book): string {
  const unfit = book.findingsNow().find((finding) => finding.code === 'care.unfit' && severity(finding) === 'error');
  if (unfit) return `do not fire: ${unfit.facts['part']} ${unfit.facts['found']}`;
  const { sentence } = adviceNow(book);
  return `${sentence.slice(0, 1).toLowerCase()}${sentence.slice(1)}`;
}
