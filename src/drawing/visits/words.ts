/** A station over the visits in words. */
import { lengthsIn, type Units, type VisitMarks, type VisitPoint, type VisitsFigure } from '../../model/index.ts';

/** `visit 2, 2026-04-11: as found centre 0.7 ± 0.2 mm, spread 0.7 ± 0.3 mm` */
function visitInWords({ session, found, left }: VisitPoint, units: Units): string {
  const date = left.date ?? found?.date;
  const parts = [
    found && `as found ${marksInWords(found, units)}`,
    `${found ? 'as left' : 'as found and as left'} ${marksInWords(left, units)}`,
  ]
    .filter(Boolean)
    .join('; ');
  return `visit ${session}${date === undefined ? '' : `, ${date}`}: ${parts}`;
}

function marksInWords({ centre, spread, missed }: VisitMarks, units: Units): string {
  const { measured } = lengthsIn(units);
  const parts = [
    centre && `centre ${measured(centre)}`,
    spread && `spread ${measured(spread)}`,
    missed > 0 && `${missed} ${missed === 1 ? 'tape' : 'tapes'} missed`,
  ].filter(Boolean);
  return parts.length === 0 ? 'no complete mark' : parts.join(', ');
}

/** One paragraph. */
export function visitsInWords({ station, limits, visits, summary, units }: VisitsFigure): string {
  const bounds = (['centre', 'spread'] as const).flatMap((of) =>
    limits[of] === undefined ? [] : [`${of} ${lengthsIn(units).given(limits[of])}`],
  );
  return [
    `${station}, visit by visit${bounds.length > 0 ? `; limits: ${bounds.join(', ')}` : '; no limits'}.`,
    visits.length === 0 ? 'Not shot.' : `${visits.map((visit) => visitInWords(visit, units)).join('. ')}.`,
    summary ?? '',
  ]
    .filter(Boolean)
    .join(' ');
}

/** Wraps at words; a line is longer than the limit only if a single word is. */
export function linesOf(text: string, letters: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const longer = `${lines.at(-1) ?? ''} ${word}`.trim();
    if (lines.length > 0 && longer.length <= letters) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}
