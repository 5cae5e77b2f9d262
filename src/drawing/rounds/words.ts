/** A station's rounds in words. */
import { lengthsIn, type RoundPoint, type RoundsFigure, type Units } from '../../model/index.ts';

/** `a, 2026-03-07 spring service`; the letter only if there are several. */
export function sessionInWords({ sessions }: RoundsFigure, k: number): string {
  const { title, date } = sessions[k]!;
  const name = [date, title].filter(Boolean).join(' ') || 'before any session';
  return sessions.length > 1 ? `${sessionLetter(k)}: ${name}` : name;
}

export function sessionLetter(k: number): string {
  return String.fromCharCode('a'.charCodeAt(0) + k);
}

function roundInWords({ round, state, centre, spread, missed }: RoundPoint, units: Units): string {
  const { measured } = lengthsIn(units);
  const parts = [
    centre && `centre ${measured(centre)}`,
    spread && `spread ${measured(spread)}`,
    missed > 0 && `${missed} ${missed === 1 ? 'tape' : 'tapes'} missed`,
    stateInWords(state),
  ];
  return `round ${round}: ${parts.filter(Boolean).join(', ')}`;
}

/** The state of the round at its last mark. */
export function stateInWords(state: RoundPoint['state']): string {
  switch (state) {
    case 'unlimited':
      return 'no limits';
    case 'incomplete':
      return 'not all places shot';
    default:
      return state;
  }
}

/** One paragraph. */
export function roundsInWords(figure: RoundsFigure): string {
  const { station, limits, rounds, sessions, units } = figure;
  const bounds = (['centre', 'spread'] as const).flatMap((of) =>
    limits[of] === undefined ? [] : [`${of} ${lengthsIn(units).given(limits[of])}`],
  );
  return [
    `Rounds on ${station}${bounds.length > 0 ? `; limits: ${bounds.join(', ')}` : '; no limits'}.`,
    ...sessions.map(
      (_, k) =>
        `${sessionInWords(figure, k)}: ${rounds
          .filter(({ session }) => session === k)
          .map((round) => roundInWords(round, units))
          .join('; ')}.`,
    ),
    rounds.length === 0 ? 'Nothing was shot.' : '',
  ]
    .filter(Boolean)
    .join(' ');
}
