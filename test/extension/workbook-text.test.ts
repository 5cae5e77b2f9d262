/** Whatever is answered, the workbook that comes of it has nothing wrong in it and asks for its first mark. */
import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/index.ts';
import type { Answers } from '../../src/extension/create/answers.ts';
import { BEAM_PATHS } from '../../src/extension/create/beam-paths.ts';
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

describe('travel', () => {
  test.each([
    ['900 x 600', { width: 900, depth: 600 }],
    ['36.5×24 in', { width: 36.5, depth: 24 }],
    ['900mm*600mm', { width: 900, depth: 600 }],
    ['900', undefined],
    ['0 x 600', undefined],
    ['900 by 600', undefined],
    ['-900 x 600', undefined],
  ])('%s', (text, travel) => expect(readTravel(text)).toEqual(travel));
});
