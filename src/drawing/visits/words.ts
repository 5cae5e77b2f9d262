/** How a station went over the visits, in words. */
import type { VisitMarks, VisitPoint, VisitsFigure } from '../../model/index.ts';
import { mm } from '../number.ts';

/** `visit 2, 2026-04-11: as found centre 0.7 ± 0.2 mm, spread 0.7 ± 0.3 mm` */
export function visitInWords({ session, found, left }: VisitPoint): string {
  const date = left.date ?? found?.date;
  const told = [
    found && `as found ${marksInWords(found)}`,
    `${found ? 'as left' : 'as found and as left'} ${marksInWords(left)}`,
  ].filter(Boolean).join('; ');
  return `visit ${session}${date === undefined ? '' : `, ${date}`}: ${told}`;
}

function marksInWords({ centre, spread, missed }: VisitMarks): string {
  const parts = [
    centre && `centre ${amountInWords(centre)} mm`,
    spread && `spread ${amountInWords(spread)} mm`,
    missed > 0 && `${missed} ${missed === 1 ? 'tape' : 'tapes'} missed`,
  ].filter(Boolean);
  return parts.length === 0 ? 'no mark read whole' : parts.join(', ');
}

function amountInWords({ value, u }: { readonly value: number; readonly u: number }): string {
  return `${value.toFixed(1)} ± ${u.toFixed(1)}`;
}

/** One paragraph. */
export function visitsInWords({ station, limits, visits, told }: VisitsFigure): string {
  const bounds = (['centre', 'spread'] as const).flatMap((of) => (limits[of] === undefined ? [] : [`${of} ${mm(limits[of])} mm`]));
  return [
    `${station} over the visits${bounds.length > 0 ? `; limits: ${bounds.join(', ')}` : '; no limits'}.`,
    visits.length === 0 ? 'It was not shot.' : `${visits.map(visitInWords).join('. ')}.`,
    told ?? '',
  ].filter(Boolean).join(' ');
}

/** Lines of whole words, each of so many letters at most where no word is longer. */
export function linesOf(text: string, letters: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const longer = `${lines.at(-1) ?? ''} ${word}`.trim();
    if (lines.length > 0 && longer.length <= letters) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}
