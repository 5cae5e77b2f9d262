/** Whatever is answered, the workbook that comes of it has nothing wrong in it and asks for its first mark. */
import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/index.ts';
import type { Answers } from '../../src/extension/create/answers.ts';
import { BEAM_PATHS } from '../../src/extension/create/beam-paths.ts';
import { readName } from '../../src/extension/create/machine-name.ts';
import { readTravel } from '../../src/extension/create/travel.ts';
import { workbookText } from '../../src/extension/create/workbook-text.ts';
import { reader } from '../support/log.ts';

const answers = Object.entries(BEAM_PATHS).flatMap(([name, beamPath]) =>
  (['mm', 'in'] as const).flatMap((units) =>
    ([2, 3] as const).map((screws): [string, Answers] => [
      `${name}, ${units}, ${screws} screws`,
      {
        name: 'heron',
        beamPath,
        units,
        screws,
        travel: units === 'mm' ? { width: 900, depth: 600 } : { width: 36, depth: 24 },
      },
    ]),
  ),
);

test.each(answers)('%s', (_, given) => {
  const { entries, findings } = reader.read(workbookText(given, '2026-03-14'), {
    file: 'heron.alignbook.yaml',
    files: new Map(),
  });
  const evaluation = evaluate(entries);
  expect([...findings, ...evaluation.findings].map(({ code }) => code)).toEqual([]);
  expect(evaluation.verdict).toBe('continue');
  expect(evaluation.steps.at(-1)).toMatchObject({ kind: 'shoot', station: 'M1' });
});

test('a machine that people call otherwise keeps that as its title', () => {
  const [, given] = answers[0]!;
  const text = workbookText({ ...given, ...readName(' Workshop-2  "Žába" ')! }, '2026-03-14');
  const { entries, findings } = reader.read(text, { file: 'x.alignbook.yaml', files: new Map() });
  expect(findings).toEqual([]);
  expect(entries[0]!.entry).toMatchObject({ machine: { name: 'Workshop_2_Zaba', title: 'Workshop-2 "Žába"' } });
});

describe('name', () => {
  test.each([
    ['heron', { name: 'heron' }],
    ['bay_3', { name: 'bay_3' }],
    ['my heron', { name: 'my_heron', title: 'my heron' }],
    ['heron-', { name: 'heron', title: 'heron-' }],
    ['2 heron', undefined],
    ['', undefined],
    ['激光', undefined],
  ])('%s', (text, name) => expect(readName(text)).toEqual(name));
});

describe('travel', () => {
  test.each([
    ['900 x 600', { width: 900, depth: 600 }],
    ['36.5×24 in', { width: 36.5, depth: 24 }],
    ['900mm*600mm', { width: 900, depth: 600 }],
    ['900', undefined],
    ['0 x 600', undefined],
    ['900 by 600', { width: 900, depth: 600 }],
    ['1300 900', { width: 1300, depth: 900 }],
    ['1300,900', { width: 1300, depth: 900 }],
    ['51 1/8 x 35', { width: 51.125, depth: 35 }],
    ['51 1/8 35 1/2 in', { width: 51.125, depth: 35.5 }],
    ['3/4 x 1/2', { width: 0.75, depth: 0.5 }],
    ['1/0 x 5', undefined],
    ['900 x 600 x 3', undefined],
    ['900600', undefined],
    ['-900 x 600', undefined],
  ])('%s', (text, travel) => expect(readTravel(text)).toEqual(travel));
});
