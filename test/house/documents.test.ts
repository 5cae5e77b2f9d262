/** The documents show what the program really prints (`UPDATE=1` writes it anew, for a person to read the difference). */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { cautionsAt } from '../../src/model/index.ts';
import { drawDirections } from '../optics/directions-drawing.ts';
import { ROOT } from './layers.ts';

const README = join(ROOT, 'README.md');
const DIRECTIONS = join(ROOT, 'shared', 'directions.md');
const update = process.env['UPDATE'] !== undefined;

/** The last heading. */
const CAUTIONS = '## Before you fire\n';

/** `$ npx alignbook …` and what stands below it, up to the end of the block. */
const SESSION = /```console\n\$ npx alignbook (.*)\n([^]*?)```/g;

test('the sessions in README.md are what the program prints', () => {
  const text = readFileSync(README, 'utf8');
  const sessions = [...text.matchAll(SESSION)];
  expect(sessions.length).toBeGreaterThanOrEqual(2);
  const real = text.replace(
    SESSION,
    (_, command: string) => `\`\`\`console\n$ npx alignbook ${command}\n${printed(command)}\`\`\``,
  );
  if (update) writeFileSync(README, real);
  else expect(text).toBe(real);
  console.log(`${sessions.length} sessions compared`);
});

function printed(command: string): string {
  return spawnSync('bash', ['-c', `node dist/alignbook.cjs ${command}`], { cwd: ROOT, encoding: 'utf8' }).stdout;
}

test('README.md gives every caution, in the words that the program uses', () => {
  const text = readFileSync(README, 'utf8');
  const [before] = text.split(CAUTIONS);
  const said = Object.values(cautionsAt())
    .flat()
    .map((caution) => `- ${caution}\n`)
    .join('');
  const whole = `${before}${CAUTIONS}\n${said}`;
  if (update) writeFileSync(README, whole);
  else expect(text).toBe(whole);
});

test('the walkthrough gives every caution, in the same words', () => {
  const said = `# Before you fire\n\n${Object.values(cautionsAt())
    .flat()
    .map((caution) => `- ${caution}\n`)
    .join('')}`;
  const file = join(ROOT, 'shared', 'walkthrough', 'safe.md');
  if (update) writeFileSync(file, said);
  else expect(readFileSync(file, 'utf8')).toBe(said);
});

test('shared/directions.md is what the optics draws', () => {
  const drawn = `# Directions\n\nWritten by the program’s own optics; \`test/optics\` compares it with an independent library.\n\n${drawDirections()}`;
  if (update) writeFileSync(DIRECTIONS, drawn);
  else expect(readFileSync(DIRECTIONS, 'utf8')).toBe(drawn);
});
