/** What is asked about a machine before its workbook is created: once, for the editor and the command line. */
import type { Answers, Corner } from './answers.ts';
import { CORNERS } from './answers.ts';
import { BEAM_PATHS, type BeamPath } from './beam-paths.ts';
import { readLengths } from './lengths.ts';
import { readName } from './machine-name.ts';

/** The names of the questions, which are also options of the command line. */
export const ANSWERS = [
  'name',
  'tube',
  'units',
  'travel',
  'screws',
  'empty-corner',
  'locks',
  'nozzle',
  'plumb',
] as const;

export type AnswerName = (typeof ANSWERS)[number];

/** A text to translate, in which `{0}` and `{1}` stand for the others. */
export type Words = readonly [text: string, ...others: string[]];

export interface Question {
  readonly name: AnswerName;
  /** Absent: it is always asked. */
  isAsked?(answers: Partial<Answers>): boolean;
  words(answers: Partial<Answers>): Words;
  /** Absent: it is answered by a text. */
  readonly choices?: readonly Choice[];
  /** What belongs there, if an answer cannot be read. */
  fault(answers: Partial<Answers>): Words;
  /** Undefined if the answer cannot be read. A choice is answered by its word. */
  read(text: string, answers: Partial<Answers>): Partial<Answers> | undefined;
  /** An earlier answer as it would be typed. */
  typed?(answers: Partial<Answers>): string | undefined;
}

export interface Choice {
  readonly word: string;
  readonly label: string;
  readonly detail?: string;
}

/** A question that is answered by one of these. */
function choosing<K extends keyof Answers>(
  name: AnswerName,
  key: K,
  text: string,
  choices: readonly (Choice & { readonly value: Answers[K] })[],
): Question {
  return {
    name,
    words: () => [text],
    choices,
    fault: () => ['One of {0}.', choices.map(({ word }) => word).join(', ')],
    read(typed) {
      const chosen = choices.find(({ word }) => word === typed.trim().toLowerCase().replaceAll(/\s+/g, '-'));
      return chosen && { [key]: chosen.value };
    },
  };
}

const name: Question = {
  name: 'name',
  words: () => ['What is the name of the machine? A short name, such as heron'],
  fault: () => ['Use a letter first.'],
  // Also without a title: an earlier answer may have had one.
  read: (text) => {
    const read = readName(text);
    return read && { title: undefined, ...read };
  },
  typed: ({ name: given, title = given }) => title,
};

const THREE = 'Three mirrors: in the corner, on the gantry, on the head';
const ONE = 'One mirror, on the head';

const path = (word: string, label: string, detail: string, value: BeamPath) => ({ word, label, detail, value });

const tube = choosing(
  'tube',
  'beamPath',
  'As you stand in front of the machine: where is the tube, and where does its beam go?',
  [
    path('rear-left', 'Tube at the rear, beam leaves to the left', THREE, BEAM_PATHS.rearLeft),
    path('rear-right', 'Tube at the rear, beam leaves to the right', THREE, BEAM_PATHS.rearRight),
    path('front-left', 'Tube at the front, beam leaves to the left', THREE, BEAM_PATHS.frontLeft),
    path('front-right', 'Tube at the front, beam leaves to the right', THREE, BEAM_PATHS.frontRight),
    path('gantry-left', 'Tube on the gantry, beam leaves to the left', ONE, BEAM_PATHS.gantryLeft),
    path('gantry-right', 'Tube on the gantry, beam leaves to the right', ONE, BEAM_PATHS.gantryRight),
  ],
);

const units = choosing('units', 'units', 'Which unit do you measure in?', [
  { word: 'mm', label: 'Millimetres', value: 'mm' },
  { word: 'in', label: 'Inches', value: 'in' },
]);

const exampleOfTravel = ({ units: given = 'mm' }: Partial<Answers>) => (given === 'mm' ? '900 x 600' : '36 x 24');

const travel: Question = {
  name: 'travel',
  words: (answers) => [
    'How far does the head travel, left to right x front to rear, in {0}? For example {1}',
    answers.units ?? 'mm',
    exampleOfTravel(answers),
  ],
  fault: (answers) => ['Two lengths in {0}, such as {1}.', answers.units ?? 'mm', exampleOfTravel(answers)],
  read(text, { units }) {
    const [width, depth] = readLengths(text, units) ?? [];
    return width === undefined || depth === undefined ? undefined : { travel: { width, depth } };
  },
  typed: ({ travel: given }) => given && `${given.width} x ${given.depth}`,
};

const screws = choosing('screws', 'screws', 'How many screws tilt a mirror?', [
  { word: '3', label: 'Three', detail: 'Two of them are turned, or all three', value: 3 },
  { word: '2', label: 'Two', detail: 'The third point is a ball or a spring', value: 2 },
]);

const CORNER_LABELS: Readonly<Record<Corner, string>> = {
  'upper left': 'Upper left',
  'upper right': 'Upper right',
  'lower left': 'Lower left',
  'lower right': 'Lower right',
};

const emptyCorner: Question = {
  ...choosing('empty-corner', 'emptyCorner', 'As you face the screw heads: which corner of the plate has no screw?', [
    ...CORNERS.map((value) => ({ word: value.replace(' ', '-'), label: CORNER_LABELS[value], value })),
    { word: 'unknown', label: 'Not known, or not the same on every mirror', value: undefined },
  ]),
  isAsked: ({ screws: count }) => count === 3,
};

const locks = choosing('locks', 'locks', 'Do the screws have lock nuts?', [
  { word: 'nut', label: 'Lock nuts', detail: 'They are loosened before a turn and tightened after it', value: 'nut' },
  { word: 'none', label: 'None', value: 'none' },
  { word: 'unknown', label: 'Not known yet', value: undefined },
]);

const exampleOfNozzle = ({ units: given = 'mm' }: Partial<Answers>) => (given === 'mm' ? '4 x 45' : '5/32 x 1 3/4');

const nozzle: Question = {
  name: 'nozzle',
  words: (answers) => [
    'Is there a nozzle below the lens? Its aperture x its distance from the lens in {0}, such as {1}; or none, or unknown',
    answers.units ?? 'mm',
    exampleOfNozzle(answers),
  ],
  fault: (answers) => [
    'Two lengths in {0}, such as {1}, or none, or unknown.',
    answers.units ?? 'mm',
    exampleOfNozzle(answers),
  ],
  read(text, { units }) {
    const word = text.trim().toLowerCase();
    if (word === 'none' || word === 'unknown') return { nozzle: word };
    const [aperture, leg] = readLengths(text, units) ?? [];
    return aperture === undefined || leg === undefined ? undefined : { nozzle: { aperture, leg } };
  },
  typed: ({ nozzle: given }) => (typeof given === 'object' ? `${given.aperture} x ${given.leg}` : given),
};

/** mrad: beyond this it is no limit, and below it nobody can measure. */
const PLUMB = { least: 0.5, most: 100 } as const;

const plumb: Question = {
  name: 'plumb',
  words: () => ['How far may the beam tilt below the lens, in mrad? Such as 12; or none, if that is not to be judged'],
  fault: () => ['A number of mrad, such as 12, or none.'],
  read(text) {
    if (text.trim().toLowerCase() === 'none') return { plumb: undefined };
    const value = /^\s*(\d+(?:\.\d+)?)\s*(?:mrad)?\s*$/.exec(text)?.[1];
    const limit = Number(value);
    return value !== undefined && limit >= PLUMB.least && limit <= PLUMB.most ? { plumb: limit } : undefined;
  },
  typed: ({ plumb: given }) => given?.toString(),
};

/** In the order in which they are asked; each may depend on those before it. */
export const QUESTIONS: readonly Question[] = [name, tube, units, travel, screws, emptyCorner, locks, nozzle, plumb];
