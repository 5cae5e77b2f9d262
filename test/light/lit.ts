/** The machine of the other tests with a beam, and what is said of it at a station. */
import type { Light } from '../../src/model/index.ts';
import { evaluate } from '../../src/evaluation/index.ts';
import { lightOf } from '../../src/light/index.ts';
import { LIMITS, MACHINE, reader } from '../support/log.ts';

/** @param source lines of `source`, parted by `; ` */
export const machine = (source: string, change: (text: string) => string = (text) => text) =>
  change(
    MACHINE.replace(
      '  fires: left',
      `  fires: left\n${source
        .split('; ')
        .map((line) => `  ${line}`)
        .join('\n')}`,
    ),
  );

/** Of a machine and cells below it. */
export function light(text: string, ...cells: string[]): Light {
  const { entries } = reader.read([text, LIMITS, ...cells].join('---\n'), {
    file: 'test.alignbook.yaml',
    files: new Map(),
  });
  const result = entries.map(({ entry }) => entry).find((entry) => entry.kind === 'machine');
  return lightOf(result!.machine, evaluate(entries));
}

/** In one corner of the travel; the last one is the farthest. */
export const at = (of: Light, name: string, corner = of.corners.length - 1) =>
  of.corners[corner]!.stations.find((one) => one.name === name)!;
