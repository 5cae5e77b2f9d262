/**
 * Workbooks with random changes, each through every command: an answer with the right exit code, one line of JSON
 * without `null`, and no programming term or control character in text for a person.
 */
import { afterAll, expect, test } from 'vitest';
import { oneLine, unknowns } from '../cli/answers.ts';
import { HOSTILE } from '../cli/hostile.ts';
import { folder, typist } from '../cli/terminal.ts';
import { editOf, randomOf, startOf } from '../server/random-edits.ts';
import { COUNT, LONGEST, SEED } from '../support/amount.ts';

const place = folder();
afterAll(() => place.remove());

const COMMANDS = ['check', 'next', 'care', 'sessions', 'light'];
/** A user's own text, in backticks, may hold these. */
const WORDS = /\bNaN\b|Infinity|\bundefined\b|\[object/;
const CONTROL = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]/u;
/** Long files have their own tests. */
const SHORT_HOSTILE = Object.values(HOSTILE).filter((text) => text.length < 20_000);
/** Every tenth file is also printed and drawn. */
const PRINTED = 10;

function textOf(random: () => number): string {
  const isHostile = random() < 0.3;
  let text = isHostile ? SHORT_HOSTILE[Math.floor(random() * SHORT_HOSTILE.length)]! : startOf(random);
  const edits = Math.floor(random() * 12);
  for (let k = 0; k < edits; k++) {
    const { start, end, text: piece } = editOf(text, random);
    text = text.slice(0, start) + piece + text.slice(end);
  }
  return text;
}

test(
  `${COUNT} changed workbooks through every command`,
  () => {
    let runs = 0;
    const ends = new Map<string, number>();
    for (let k = 0; k < COUNT; k++) {
      const text = textOf(randomOf(SEED * 1_000_003 + k));
      const file = place.file('changed.alignbook.yaml', text);
      const which = `SEED=${SEED}, file ${k}`;
      const ask = typist();
      for (const command of COMMANDS) {
        const answer = ask(command, file);
        const json = ask(command, '--json', file);
        expect([0, 1, 2], which).toContain(answer.exit);
        expect(json.exit, `${which}, ${command}`).toBe(answer.exit);
        expect(unknowns(oneLine(json.out)), `${which}, ${command}`).toEqual([]);
        expect(answer.out.replaceAll(/`[^`]*`/g, ''), `${which}, ${command}`).not.toMatch(WORDS);
        expect(answer.out + answer.error, `${which}, ${command}`).not.toMatch(CONTROL);
        const end = `${command} ${answer.exit}`;
        ends.set(end, (ends.get(end) ?? 0) + 1);
        runs += 2;
      }
      if (k % PRINTED !== 0) continue;
      for (const words of [
        ['report'],
        ['report', '--markdown'],
        ['draw', '--path'],
        ['draw', '--station', 'M2'],
        ['draw', '--visits', 'M2'],
      ]) {
        const [command, ...rest] = words as [string, ...string[]];
        const { exit, out } = ask(command, file, ...rest);
        expect([0, 1, 2], `${which}, ${words.join(' ')}`).toContain(exit);
        expect(out, `${which}, ${words.join(' ')}`).not.toMatch(/<script|javascript:|\bNaN\b/i);
        runs++;
      }
    }
    console.log(
      `seed ${SEED}: ${COUNT} files, ${runs} commands; by exit code: ${[...ends]
        .toSorted()
        .map(([end, count]) => `${end}: ${count}`)
        .join(', ')}`,
    );
  },
  LONGEST,
);
