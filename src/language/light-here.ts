/** What the beam does on one station, as the last marks have it. */
import { lightOf } from '../light/index.ts';
import type { Evaluation } from '../model/index.ts';
import type { Book } from './book.ts';
import { focusInWords, widthsInWords } from './light-words.ts';
import { machineAt } from './machine-at.ts';

export function lightHere(book: Book, evaluation: Evaluation, name: string): string[] {
  const machine = machineAt(book, Infinity);
  const station = evaluation.stations.find((one) => one.name === name);
  if (!machine || !station) return [];
  const light = lightOf(machine, evaluation);
  const focus = light.focus?.station === name ? focusInWords(light.focus, station) : [];
  return [...(light.beam ? widthsInWords(light, station) : []), ...focus];
}
