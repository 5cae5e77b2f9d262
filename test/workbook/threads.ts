/** A few thread names, so that the format is tested without the hardware table. */
import type { Threads } from '../../src/workbook/index.ts';

const PITCHES: Readonly<Record<string, number>> = {
  M3: 0.5,
  M4: 0.7,
  '8-32 UNC': 25.4 / 32,
  'M4 LH': 0.7,
  'M4-LH': 0.7,
};

export const threads: Threads = {
  pitch: (name) => (Object.hasOwn(PITCHES, name) ? PITCHES[name] : undefined),
  isLeftHanded: (name) => name.endsWith('LH'),
  names: () => Object.keys(PITCHES),
};
