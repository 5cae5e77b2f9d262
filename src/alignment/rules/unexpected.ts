/** Marks that contradict the log: from what it says was done they would lie elsewhere, and chance hardly ever goes so far. */
import type { Finding } from '../../model/index.ts';
import { account, SURE, type Odd } from '../account.ts';
import { ellipse } from '../ellipse.ts';
import { estimateOf, predict } from '../estimate.ts';
import { NO_MOVE } from '../move.ts';
import { markInWords } from '../reasons.ts';
import type { Taken } from '../state.ts';
import { placeInWords } from '../words.ts';
import { at, type Outcome } from './rule.ts';

export function unexpected({ state, standings, entries }: Outcome): Finding[] {
  const odd = state.chapter ? account(state.chapter).odd : [];
  return odd.flatMap((one): Finding[] => {
    const logged = entries[one.moment.order];
    const report = standings.find(({ station }) => station.name === one.station)?.report;
    const worst = farthestOff(one);
    if (!logged || !report || !worst) return [];
    const { reading, expected: { right, up, within } } = worst;
    const place = placeInWords(report.carriages, reading.at, reading.with);
    const facts = {
      station: report.name, place: place === '' ? '' : ` (${place})`, within: within.toFixed(1),
      mark: markInWords(reading.right, reading.up, report.frame), expected: markInWords(right, up, report.frame),
    };
    return [at(logged, reading.path, 'log.unexpected', facts)];
  });
}

/** Read both ways, on the station's own tape. */
function isMark(reading: Taken): reading is Taken & { readonly right: number; readonly up: number } {
  return reading.height === 0 && reading.right !== undefined && reading.up !== undefined;
}

interface Expected {
  readonly right: number;
  readonly up: number;
  /** mm, the longer half axis of the ellipse that holds 95 of 100 such marks */
  readonly within: number;
}

/**
 * The mark that is furthest from where it would be; none where only all of them together are odd: those contradict each
 * other, which is said elsewhere, as a mark outside the hole is. A tape on the bed lies anywhere; and of a mark that was read
 * one way only it could not be said where it is.
 */
function farthestOff({ before, readings }: Odd): { readonly reading: Taken; readonly expected: Expected } | undefined {
  const known = estimateOf(before);
  const off = readings.filter(isMark).filter(({ station, right, up }) => Math.hypot(right, up) <= before.system.stations[station]!.element.aperture / 2).flatMap((reading) => {
    const predicted = predict(known, [reading], NO_MOVE);
    if (!predicted) return [];
    const [right, up] = [predicted.mean[0]!, predicted.mean[1]!];
    const [rr, ru, , uu] = predicted.covariance.data;
    const noise = reading.u ** 2;
    const within = ellipse([rr! + noise, ru!, uu! + noise]).major;
    const away = Math.max(Math.abs(reading.right - right) / Math.sqrt(rr! + noise), Math.abs(reading.up - up) / Math.sqrt(uu! + noise));
    return away < SURE ? [] : [{ reading, expected: { right, up, within }, away }];
  });
  return off.reduce<(typeof off)[number] | undefined>((most, one) => (most && most.away >= one.away ? most : one), undefined);
}
