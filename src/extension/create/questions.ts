/** The five questions of a new workbook. */
import { l10n } from 'vscode';
import type { Answers, Units } from './answers.ts';
import { BACK, choose, write, type Choice, type Question } from './question.ts';
import { BEAM_PATHS, type BeamPath } from './beam-paths.ts';
import { readName } from './machine-name.ts';
import { readTravel } from './travel.ts';

const nameQuestion: Question<Answers> = async ({ name = '', title = name }, place) => {
  const fault = (text: string) => (readName(text) ? undefined : l10n.t('Use a letter first.'));
  const prompt = l10n.t('What is the name of the machine? A short name, such as heron');
  const reply = await write(place, prompt, title, fault);
  // Also without a title: an earlier answer may have had one.
  return typeof reply === 'string' ? { title: undefined, ...readName(reply) } : reply;
};

const beamPathQuestion: Question<Answers> = async (_, place) =>
  named(
    'beamPath',
    await choose(
      place,
      l10n.t('As you stand in front of the machine: where is the tube, and where does its beam go?'),
      beamPaths(),
    ),
  );

const unitsQuestion: Question<Answers> = async (_, place) =>
  named(
    'units',
    await choose<Units>(place, l10n.t('Which unit do you measure in?'), [
      { label: l10n.t('Millimetres'), value: 'mm' },
      { label: l10n.t('Inches'), value: 'in' },
    ]),
  );

const travelQuestion: Question<Answers> = async ({ units = 'mm', travel }, place) => {
  const example = units === 'mm' ? '900 x 600' : '36 x 24';
  const fault = (text: string) => (readTravel(text) ? undefined : l10n.t('Two lengths, such as {0}.', example));
  const prompt = l10n.t(
    'How far does the head travel, left to right x front to rear, in {0}? For example {1}',
    units,
    example,
  );
  const reply = await write(place, prompt, travel ? `${travel.width} x ${travel.depth}` : '', fault);
  return named('travel', typeof reply === 'string' ? readTravel(reply) : reply);
};

const screwsQuestion: Question<Answers> = async (_, place) =>
  named(
    'screws',
    await choose<2 | 3>(place, l10n.t('How many screws tilt a mirror?'), [
      { label: l10n.t('Three'), detail: l10n.t('Two of them are turned, or all three'), value: 3 },
      { label: l10n.t('Two'), detail: l10n.t('The third point is a ball or a spring'), value: 2 },
    ]),
  );

export const QUESTIONS = [nameQuestion, beamPathQuestion, unitsQuestion, travelQuestion, screwsQuestion];

function named<Key extends keyof Answers>(
  key: Key,
  reply: Answers[Key] | typeof BACK | undefined,
): Partial<Answers> | typeof BACK | undefined {
  return reply === undefined || reply === BACK ? reply : { [key]: reply };
}

function beamPaths(): Choice<BeamPath>[] {
  const three = l10n.t('Three mirrors: in the corner, on the gantry, on the head');
  const one = l10n.t('One mirror, on the head');
  return [
    { label: l10n.t('Tube at the rear, beam leaves to the left'), detail: three, value: BEAM_PATHS.rearLeft },
    { label: l10n.t('Tube at the rear, beam leaves to the right'), detail: three, value: BEAM_PATHS.rearRight },
    { label: l10n.t('Tube at the front, beam leaves to the left'), detail: three, value: BEAM_PATHS.frontLeft },
    { label: l10n.t('Tube at the front, beam leaves to the right'), detail: three, value: BEAM_PATHS.frontRight },
    { label: l10n.t('Tube on the gantry, beam leaves to the left'), detail: one, value: BEAM_PATHS.gantryLeft },
    { label: l10n.t('Tube on the gantry, beam leaves to the right'), detail: one, value: BEAM_PATHS.gantryRight },
  ];
}
