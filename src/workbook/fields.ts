/**
 * The types of values, created once for each unit system: a length without a unit is in the machine's units, so a
 * workbook in inches has other schemas than one in millimetres.
 */
import type * as z from 'zod';
import type { Counter, Units } from '../model/index.ts';
import * as quantities from './quantities/index.ts';
import type { Calculator, Interval, Mark, Measured, Measurement, Must, Shift, Turn } from './quantities/index.ts';
import { readTurned } from './quantities/scalars.ts';
import { NAME, scalar, type Published } from './shapes.ts';

type Examples = readonly (string | number)[];

export interface Fields {
  /** mm */
  length(description: string, examples: Examples, must?: Must): z.ZodType<Measured, string>;
  /** rad; a bare number is in mrad */
  slope(description: string, examples: Examples, must?: Must): z.ZodType<Measured, string>;
  /** rad */
  angle(description: string, examples: Examples, must?: Must): z.ZodType<Measured, string>;
  /** W */
  power(description: string, examples: Examples, must?: Must): z.ZodType<Measured, string>;
  /** s */
  time(description: string, examples: Examples, must?: Must): z.ZodType<Measured, string>;
  number(description: string, examples: Examples, must?: Must): z.ZodType<Measured, string>;
  /** 0 … 1 */
  ratio(description: string, examples: Examples, most?: number): z.ZodType<Measured, string>;
  /** A ratio to the full power, or W. */
  pulsePower(description: string, examples: Examples): z.ZodType<{ ratio: number } | { watts: number }, string>;
  /** Turns without a direction. */
  turns(description: string, examples: Examples): z.ZodType<Measured, string>;
  turn(description: string, ...examples: string[]): z.ZodType<Turn, string>;
  shift(description: string, ...examples: string[]): z.ZodType<Shift, string>;
  mark(description: string, ...examples: string[]): z.ZodType<Mark, string>;
  /** A stop's name, or a leg in mm. */
  place(description: string, ...examples: string[]): z.ZodType<string | number, string>;
  interval(description: string, ...examples: string[]): z.ZodType<Interval, string>;
  /** Of any dimension, with its unit. */
  quantity(description: string, ...examples: string[]): z.ZodType<Measurement, string>;
  /** Of the machine's counter; a number without a unit is in hours. */
  hours(description: string, examples: Examples): z.ZodType<Counter, string>;
  /** A picture's path, as written. */
  photoPath(description: string, ...examples: string[]): z.ZodType<string, string>;
  sha256(description: string, ...examples: string[]): z.ZodType<string, string>;
  /** As written, after checking that it is a date. */
  date(description: string, ...examples: string[]): z.ZodType<string, string>;
  name(description: string, ...examples: string[]): z.ZodType<string, string>;
}

/** YAML readers turn plain numbers into numbers; here they are texts. */
const NUMERIC = ['string', 'number'];

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one line for each kind of field
export function createFields(units: Units, calculator: Calculator): Fields {
  const context = { units, calculator };
  const numeric = (description: string, examples: Examples): Published => ({ description, examples, type: NUMERIC });
  return {
    length: (description, examples, must) =>
      scalar('a length', (text) => quantities.readLength(text, context, must), numeric(description, examples)),
    slope: (description, examples, must) =>
      scalar(
        'an angle',
        (text) => quantities.readAngle(isBare(text) ? `${text} mrad` : text, context, must),
        numeric(description, examples),
      ),
    angle: (description, examples, must) =>
      scalar('an angle', (text) => quantities.readAngle(text, context, must), { description, examples }),
    power: (description, examples, must) =>
      scalar('a power', (text) => quantities.readPower(text, context, must), { description, examples }),
    time: (description, examples, must) =>
      scalar('a time', (text) => quantities.readTime(text, context, must), { description, examples }),
    number: (description, examples, must) =>
      scalar('a number', (text) => quantities.readNumber(text, context, must), numeric(description, examples)),
    ratio: (description, examples, most) =>
      scalar(
        'a share such as `20 %`',
        (text) => quantities.readFraction(text, context, most),
        numeric(description, examples),
      ),
    pulsePower: (description, examples) =>
      scalar(
        'a power such as `20 %`',
        (text) => quantities.readPulsePower(text, context),
        numeric(description, examples),
      ),
    turns: (description, examples) =>
      scalar('a number of turns', (text) => inTurns(text, context), numeric(description, examples)),
    turn: (description, ...examples) =>
      scalar('a turn such as `in 1/4`', (text) => quantities.readTurn(text, context), {
        description,
        examples,
        pattern: '^(in|out)\\b',
      }),
    shift: (description, ...examples) =>
      scalar('a shift such as `1.5 mm up`', (text) => quantities.readShift(text, context), { description, examples }),
    mark: (description, ...examples) =>
      scalar('a mark such as `1.5 right 2.0 down`', (text) => quantities.readMark(text, context), {
        description,
        examples,
      }),
    place: (description, ...examples) =>
      scalar<string | number>('a stop or a leg', (text) => stopOrLeg(text, context), numeric(description, examples)),
    interval: (description, ...examples) =>
      scalar('an interval such as `every 3 months`', quantities.readInterval, {
        description,
        examples,
        pattern: '^every ',
      }),
    quantity: (description, ...examples) =>
      scalar('a value with its unit', (text) => quantities.readQuantity(text, context), { description, examples }),
    hours: (description, examples) =>
      scalar('hours such as `1234 h`', (text) => quantities.readHours(text, context), numeric(description, examples)),
    photoPath: (description, ...examples) =>
      scalar('the path of a picture', quantities.readPhotoPath, { description, examples }),
    sha256: (description, ...examples) =>
      scalar('a SHA-256', quantities.readSha256, { description, examples, pattern: '^\\s*[0-9A-Fa-f]{64}\\s*$' }),
    date: (description, ...examples) =>
      scalar('a date', asWritten, { description, examples, pattern: '^\\d{4}-\\d{2}-\\d{2}([T ].*)?$' }),
    name: (description, ...examples) =>
      scalar('a name', quantities.readName, { description, examples, pattern: NAME.source }),
  };
}

function isBare(text: string): boolean {
  return /^[\s\d.+-]+$/.test(text);
}

function stopOrLeg(text: string, context: quantities.QuantityContext): quantities.Reading<string | number> {
  if (NAME.test(text.trim())) return { value: text.trim(), problems: [] };
  const { value, problems } = quantities.readLength(text, context, 'positive');
  return value === undefined ? { problems } : { value: value.value, problems };
}

function inTurns(text: string, context: quantities.QuantityContext): quantities.Reading<Measured> {
  const { value, problems } = readTurned(text, context);
  return value === undefined ? { problems } : { value: { value: value.value / (2 * Math.PI) }, problems };
}

function asWritten(text: string): quantities.Reading<string> {
  const { problems } = quantities.readDate(text);
  return problems.length > 0 ? { problems } : { value: text.trim(), problems };
}
