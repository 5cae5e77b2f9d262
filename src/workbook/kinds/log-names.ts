/** Names of a station's results in the log; their values are computed elsewhere. */
import type { Machine } from '../../model/index.ts';
import { ANGLE, LENGTH, type Dimension } from '../quantities/units.ts';

/** The part after a station's name. */
export const LOG_NAMES: Readonly<Record<string, { readonly dimension: Dimension; readonly what: string }>> = {
  'slope.right': { dimension: ANGLE, what: 'slope of the beam here to the right, from the last marks' },
  'slope.up': { dimension: ANGLE, what: 'slope of the beam here upward, from the last marks' },
  centre: { dimension: LENGTH, what: 'maximum distance of the last marks from the centre' },
  spread: { dimension: LENGTH, what: 'maximum distance between the last marks' },
  plumb: { dimension: ANGLE, what: 'angle of the beam from plumb' },
};

/** The part before a station's name: the beam's diameter there. */
export const WIDTH_ON = {
  prefix: 'beam.diameter.',
  dimension: LENGTH,
  what: 'diameter of the beam there, with every carriage at its longest leg',
} as const;

/** @param known names of the machine itself, which take precedence */
export function isLogName(
  machine: Machine | undefined,
  known: ReadonlyMap<string, unknown>,
): (name: string) => boolean {
  const stations = new Set(machine?.path.map(({ name }) => name));
  return (name) => {
    if (known.has(name)) return false;
    if (name.startsWith(WIDTH_ON.prefix)) return stations.has(name.slice(WIDTH_ON.prefix.length));
    const dot = name.indexOf('.');
    return dot > 0 && stations.has(name.slice(0, dot)) && Object.hasOwn(LOG_NAMES, name.slice(dot + 1));
  };
}
