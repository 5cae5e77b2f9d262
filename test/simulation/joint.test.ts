/**
 * The joint probability that a station is within all its limits, against draws of its marks (a million, or `DRAWS`),
 * whose limits are evaluated here independently. The stations are those of the examples after every cell, with limits
 * scaled until the probability is neither near 0 nor near 1.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import { demandQueries, type Demand } from '../../src/verdict/demand.ts';
import { estimate, predict, type Prediction } from '../../src/estimate/estimate.ts';
import { fold } from '../../src/estimate/fold.ts';
import { NO_MOVE } from '../../src/machine/move.ts';
import { probabilities } from '../../src/verdict/probability.ts';
import { stationVerdicts } from '../../src/verdict/station-verdict.ts';
import { fractionOfDraws } from '../statistics/fraction-of-draws.ts';
import { reader } from '../support/log.ts';

const EXAMPLES = new URL('../../examples/', import.meta.url);
const SCALES = [0.5, 0.75, 1, 1.5, 2, 3];
const MOST_CASES = Number(process.env['CASES'] ?? 40);
const DRAWS = Number(process.env['DRAWS'] ?? 1_000_000);
const FEW_DRAWS = 1000;

interface Case {
  readonly name: string;
  readonly demand: Demand;
  readonly predicted: Prediction;
}

test('the joint probability of all limits of a station', () => {
  const cases = spreadOver(doubtful(), MOST_CASES);
  const errors = cases.map(({ name, demand, predicted }, k) => {
    const probability = probabilities(demand, predicted).joint;
    const drawn = fractionOfDraws(
      predicted.mean,
      predicted.covariance,
      (marks) => isWithin(demand, marks),
      DRAWS,
      k + 1,
    );
    return { name, error: Math.abs(probability - drawn) };
  });
  const worst = errors.reduce((most, one) => (one.error > most.error ? one : most));
  console.log(
    `${cases.length} stations × ${DRAWS} draws, ${cases.filter(({ demand }) => Object.keys(demand.limits).length > 1).length} with several limits; largest difference ${worst.error.toFixed(4)} (${worst.name})`,
  );
  expect(cases.length).toBeGreaterThanOrEqual(30);
  expect(worst.error).toBeLessThan(0.005);
}, 300_000);

function doubtful(): Case[] {
  return readdirSync(EXAMPLES)
    .filter((file) => /^\d.*\.alignbook\.yaml$/.test(file))
    .flatMap((file) => {
      const files = new Map(
        readdirSync(new URL('machines/', EXAMPLES)).map((name) => [
          `machines/${name}`,
          { text: readFileSync(new URL(`machines/${name}`, EXAMPLES), 'utf8') },
        ]),
      );
      const { entries } = reader.read(readFileSync(new URL(file, EXAMPLES), 'utf8'), {
        file,
        files,
      });
      return entries.flatMap((_, k) => stationsAfter(`${file}, cell ${k + 1}`, fold(entries.slice(0, k + 1))));
    });
}

function stationsAfter(at: string, state: ReturnType<typeof fold>): Case[] {
  const known = estimate(state);
  if (!known) return [];
  return stationVerdicts(state, known).flatMap(({ demand, station }) => {
    const predicted = demand && predict(known, demandQueries(demand), NO_MOVE);
    if (!demand || !predicted) return [];
    return SCALES.flatMap((scale): Case[] => {
      const limits = Object.fromEntries(Object.entries(demand.limits).map(([limit, most]) => [limit, scale * most]));
      const one = { name: `${at}, ${station.name}, limits × ${scale}`, demand: { ...demand, limits }, predicted };
      // Selected by draws, not by the tested function: a wrong probability near 0 or 1 must not remove its own case.
      const roughly = fractionOfDraws(
        predicted.mean,
        predicted.covariance,
        (marks) => isWithin(one.demand, marks),
        FEW_DRAWS,
        1,
      );
      return roughly > 0.02 && roughly < 0.98 ? [one] : [];
    });
  });
}

/** A sample of this size, evenly spaced over all. */
function spreadOver<T>(all: readonly T[], count: number): T[] {
  return all.length <= count
    ? [...all]
    : Array.from({ length: count }, (_, k) => all[Math.floor((k * all.length) / count)]!);
}

function isWithin(
  { limits: { centre = Infinity, spread = Infinity, plumb = Infinity }, places }: Demand,
  marks: Float64Array,
): boolean {
  const at = (k: number) => [marks[2 * k]!, marks[2 * k + 1]!] as const;
  const difference = (one: number, other: number) => Math.hypot(at(one)[0] - at(other)[0], at(one)[1] - at(other)[1]);
  for (let one = 0; one < places.length; one++) {
    if (Math.hypot(...at(one)) > centre) return false;
    for (let other = 0; other < one; other++) if (difference(one, other) > spread) return false;
  }
  // The last two tapes are 100 mm apart along the beam.
  return plumb === Infinity || difference(places.length, places.length + 1) / 100 <= plumb;
}
