/** How amounts, places and directions are said, to a person and in a cell: the same words in both. */
import { nearestDirection, opposite } from '../optics/index.ts';
import { lookup, type Direction, type Displacement, type StationReport } from '../model/index.ts';

/** mm with as many decimals as a hand can use: `1.5`, `0.25`, `12`. */
export function millimetres(value: number): string {
  return String(Math.round(value * 100) / 100);
}

/** `1.5 mm up`, `1 mm left 0.25 mm down`. */
export function shiftInWords(by: Displacement): string {
  const parts = by.map((amount, axis): [Direction, number] => [along(axis, amount), Math.abs(amount)]);
  return parts.filter(([, amount]) => amount > 0).map(([direction, amount]) => `${millimetres(amount)} mm ${direction}`).join(' ');
}

function along(axis: number, amount: number): Direction {
  const direction = nearestDirection([axis === 0 ? 1 : 0, axis === 1 ? 1 : 0, axis === 2 ? 1 : 0]);
  return amount < 0 ? opposite(direction) : direction;
}

/** A list in a sentence: `M1`, `M1 and M2`, `M1, M2 and lens`. */
export function listed(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

/** Names that other YAML readers take for something else are quoted. */
export function nameInCell(name: string): string {
  return /^(y|n|yes|no|on|off|true|false|null)$/i.test(name) ? `"${name}"` : name;
}

/** What somebody wrote, as a list's item: quoted where YAML might read it otherwise. */
export function textInCell(text: string): string {
  return /^\p{L}[\p{L}\p{N} .()/'-]*$/u.test(text) && !/ $/.test(text) ? nameInCell(text) : JSON.stringify(text);
}

/** What somebody wrote, on one line and not too long. */
export function brief(text: string): string {
  const line = text.trim().replace(/\s+/g, ' ');
  return line.length > 40 ? `${line.slice(0, 39)}…` : line;
}

/**
 * `gantry far, head near`, `gantry at 300 mm`: where every carriage that moves a tape stands, by what rides there; nothing
 * for a tape that none moves.
 *
 * @param carriages the last of them is the tape's own, where `at` is a stop of its own
 */
export function placeInWords(carriages: StationReport['carriages'], at: string | number, others: Readonly<Record<string, string | number>> = {}): string {
  const own = at === 'here' ? undefined : carriages.at(-1)?.element;
  return carriages.flatMap(({ element, rides }) => {
    const stop = element === own ? at : lookup(others, element);
    return stop === undefined ? [] : [`${rides} ${stopInWords(stop)}`];
  }).join(', ');
}

/** In the words of the cell, where there is little room: `far`, `far, M2 near`; nothing where nothing rides. */
export function placeInCell(at: string | number, others: Readonly<Record<string, string | number>> = {}): string {
  const own = at === 'here' ? [] : [stopInWords(at)];
  return [...own, ...Object.entries(others).map(([name, stop]) => `${name} ${stopInWords(stop)}`)].join(', ');
}

function stopInWords(stop: string | number): string {
  return typeof stop === 'number' ? `at ${millimetres(stop)} mm` : stop;
}
