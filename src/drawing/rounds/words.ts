/** How the rounds of a station went, in words. */
import type { Amount, RoundPoint, RoundsFigure } from '../../model/index.ts';
import { mm } from '../number.ts';

/** `a, 2026-03-07 spring service`; the letter only where there are more. */
export function sessionInWords({ sessions }: RoundsFigure, k: number): string {
  const { title, date } = sessions[k]!;
  const name = [date, title].filter(Boolean).join(' ') || 'before any session';
  return sessions.length > 1 ? `${sessionLetter(k)}: ${name}` : name;
}

export function sessionLetter(k: number): string {
  return String.fromCharCode('a'.charCodeAt(0) + k);
}

/** `1.5 ± 0.2` */
export function amountInWords({ value, u }: Amount): string {
  return `${value.toFixed(1)} ± ${u.toFixed(1)}`;
}

export function roundInWords({ round, state, centre, spread, missed }: RoundPoint): string {
  const parts = [centre && `centre ${amountInWords(centre)} mm`, spread && `spread ${amountInWords(spread)} mm`, missed > 0 && `${missed} ${missed === 1 ? 'tape' : 'tapes'} missed`, state === 'stale' ? 'not all places shot' : state];
  return `round ${round}: ${parts.filter(Boolean).join(', ')}`;
}

/** One paragraph. */
export function roundsInWords(figure: RoundsFigure): string {
  const { station, limits, rounds, sessions } = figure;
  const bounds = (['centre', 'spread'] as const).flatMap((of) => (limits[of] === undefined ? [] : [`${of} ${mm(limits[of])} mm`]));
  return [
    `Rounds on ${station}${bounds.length > 0 ? `; limits: ${bounds.join(', ')}` : '; no limits'}.`,
    ...sessions.map((_, k) => `${sessionInWords(figure, k)}: ${rounds.filter(({ session }) => session === k).map(roundInWords).join('; ')}.`),
    rounds.length === 0 ? 'Nothing was shot.' : '',
  ].filter(Boolean).join(' ');
}
