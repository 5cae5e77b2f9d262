/** The text of `care`: the findings, actions and due date of each part, then the power. */
import { harmless, type CareHistory, type Occasion, type PartHistory } from '../model/index.ts';
import {
  arrivalInWords,
  careInWords,
  careSentences,
  changeInWords,
  dueInWords,
  powerInWords,
  throughInWords,
  transmissionInWords,
} from '../history/index.ts';
import type { Paint } from './paint.ts';
import { broken, labelled } from './wrap.ts';

const LABEL = 10;

/** @param today a date, to mark what is overdue */
export function careText(file: string, history: CareHistory, today: string, paint: Paint): string {
  const sentences = careSentences(history);
  const blocks = [
    ...history.parts.map((part) => partLines(part, today)),
    headed('POWER', powerLines(history), paint),
    headed('TRANSMISSION', transmissionLines(history), paint),
    headed(
      'SUMMARY',
      sentences.flatMap((sentence) => labelled('', harmless(sentence), 2)),
      paint,
    ),
  ].filter((block) => block.length > 0);
  const none = blocks.length === 0 ? [['This log has no care and no power reading.']] : [];
  return [
    ...broken(harmless(file)).map((line) => paint('bold', line)),
    ...[...blocks, ...none].flatMap((block) => ['', ...block]),
    '',
  ].join('\n');
}

function headed(head: string, lines: readonly string[], paint: Paint): string[] {
  return lines.length === 0 ? [] : [paint('bold', head), ...lines];
}

function partLines(part: PartHistory, today: string): string[] {
  const due = dueInWords(part, today);
  const name = part.part.length < LABEL ? [] : broken(part.part);
  const label = name.length > 0 ? '' : part.part;
  const [first, ...rest] = [
    ...(due === undefined ? [] : [due]),
    ...part.cares.map((care) => `${when(care)}: ${careInWords(care)}`),
  ];
  return [
    ...name,
    ...labelled(label, harmless(first ?? ''), LABEL),
    ...rest.flatMap((line) => labelled('', harmless(line), LABEL)),
  ];
}

/** The day; the number of the session if it has no date. */
function when({ date, session }: Occasion): string {
  return date ?? `session ${session}`;
}

function powerLines({ power, arrivals }: CareHistory): string[] {
  return power.flatMap((reading) => {
    const change = arrivals.find(({ to }) => to.cell === reading.cell);
    return row(
      reading.station,
      `${when(reading)}: ${powerInWords(reading)}${change ? `, ${arrivalInWords(change)}` : ''}`,
    );
  });
}

function transmissionLines({ transmissions, changes }: CareHistory): string[] {
  return transmissions.flatMap((transmission) => {
    const change = changes.find(({ now }) => now === transmission);
    return row(
      throughInWords(transmission.through),
      `${when(transmission.to)}: ${transmissionInWords(transmission)}${change ? `; ${changeInWords(change)}` : ''}`,
    );
  });
}

/** A short label stands beside the text, a long one before it. */
function row(label: string, text: string): string[] {
  const words = harmless(text);
  return label.length < LABEL - 2 ? labelled(`  ${label}`, words, LABEL) : labelled('', `${label}, ${words}`, 2);
}
