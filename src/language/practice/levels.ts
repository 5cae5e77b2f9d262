/** The machine of each level of practice, and what its workbook says before the learner begins. */
import type { Direction, Simulation } from '../../model/index.ts';
import { draws } from '../../simulator/index.ts';

/** What a level is about, in a few words. */
export const LEVEL_NAMES: readonly string[] = [
  'one mirror',
  'near and far',
  'the whole path',
  'a mount nobody measured',
  'a fault or a slip',
];

interface Route {
  readonly fires: Direction;
  readonly sends: readonly [Direction, Direction, Direction];
}

const USUAL: Route = { fires: 'left', sends: ['front', 'right', 'down'] };

/** Other machines as they are built. */
const OTHERS: readonly Route[] = [
  { fires: 'right', sends: ['front', 'left', 'down'] },
  { fires: 'rear', sends: ['right', 'front', 'down'] },
  { fires: 'rear', sends: ['left', 'front', 'down'] },
  { fires: 'up', sends: ['front', 'right', 'down'] },
  { fires: 'left', sends: ['rear', 'right', 'down'] },
  { fires: 'front', sends: ['right', 'rear', 'down'] },
];

/** The machine and limits cells, before the first `---`. */
export function machineText({ seed, level }: Simulation): string {
  const route = level < 4 ? USUAL : draws(seed).choose(level === 4 ? OTHERS : [USUAL, ...OTHERS], 'route');
  const { stations, limits } = pathOf(level, route);
  return [
    '# A simulated machine, for practice. Nothing here is real: it cannot be released.',
    `machine: practice${level}`,
    `title: practice, level ${level}, ${LEVEL_NAMES[level - 1]}`,
    `practice: {seed: ${seed}, level: ${level}}`,
    `source: {wavelength: 10.6 um, fires: ${route.fires}}`,
    'path:',
    ...stations.map((line) => `  ${line}`),
    'mounts:',
    '  plate:',
    ...(level === 4 ? UNMEASURED : MEASURED).map((line) => `    ${line}`),
    `    locks: ${level < 3 ? 'none' : 'nut'}`,
    '---',
    'limits: practice',
    'stations:',
    ...limits.map((line) => `  ${line}`),
    'reading: {resolution: 0.5 mm, placing: 0.2 mm}',
    'confidence: 80 %',
    '',
  ].join('\n');
}

const MEASURED = [
  'screws:',
  '  A: {right: -22 mm, up: 22 mm}',
  '  B: {right: 22 mm, up: -22 mm}',
  '  C: {right: -22 mm, up: -22 mm}',
  'thread: M4',
  'in: toward beam',
];
const UNMEASURED = ['# Nobody measured where the screws bear: the marks show what they do.', 'screws: {A: {}, B: {}}'];

const GANTRY = 'rides: gantry, stops: {near: 130 mm, far: 690 mm}, aperture: 20 mm';
const HEAD = 'rides: head, stops: {near: 70 mm, far: 910 mm}, aperture: 18 mm';

function pathOf(level: number, { sends: [first, second, third] }: Route) {
  const one = `M1: {leg: 90 mm, aperture: 20 mm, sends: ${first}, mount: plate}`;
  const limitOfOne = 'M1: {centre: 3 mm}';
  const limitOfTwo = 'M2: {centre: 2.5 mm, spread: 2 mm}';
  const limitOfThree = 'M3: {centre: 3 mm, spread: 2.5 mm}';
  if (level === 1)
    return {
      stations: [one, 'target: {leg: 480 mm, aperture: 20 mm}'],
      limits: [limitOfOne, 'target: {centre: 2 mm}'],
    };
  const two = `M2: {${GANTRY}, sends: ${second}, mount: plate}`;
  if (level === 2) return { stations: [one, two, `M3: {${HEAD}}`], limits: [limitOfOne, limitOfTwo, limitOfThree] };
  return {
    stations: [
      one,
      two,
      `M3: {${HEAD}, sends: ${third}, mount: plate}`,
      'lens: {leg: 60 mm, aperture: 18 mm, focal: 50.8 mm}',
    ],
    limits: [limitOfOne, limitOfTwo, limitOfThree, 'lens: {centre: 3 mm, plumb: 15 mrad}'],
  };
}

/** The checks that come before the first shot of every visit. */
export const CHECKS = `checks: make safe
open:
  - eyewear rated for 10.6 um on everybody in the room
  - covers closed or the beam enclosed, hands out of the path
  - extraction on, cooling on
  - extinguisher at hand, somebody watches
`;

/** The same where they are done. */
export const CHECKS_DONE = CHECKS.replace('open:', 'done:');
