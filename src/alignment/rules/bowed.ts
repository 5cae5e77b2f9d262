/** Three marks or more along one travel that do not lie on a line: a bowed rail, or a carriage that pitches or yaws. */
import { chiSquareQuantile, lineFit } from '../../statistics/index.ts';
import type { Finding } from '../../model/index.ts';
import { isMark, points, type Mark } from '../points.ts';
import { rowsAlong } from '../slope.ts';
import type { Standing } from '../report.ts';
import { lastEntry } from './last-entry.ts';
import { at, type Outcome } from './rule.ts';

/** A straight rail is called bowed once in a thousand times. */
const SURE = 0.999;

export function bowed({ standings, entries }: Outcome): Finding[] {
  return standings.flatMap((standing): Finding[] => {
    const worst = standing.station.own && crookedness(standing);
    const last = lastEntry(entries, standing);
    if (!worst || !last) return [];
    const facts = { station: standing.report.name, chiSquare: worst.chiSquare.toFixed(1), degrees: String(worst.degrees) };
    return [at(last, 'shots', 'log.bowed', facts)];
  });
}

function crookedness({ station, fresh }: Standing): { chiSquare: number; degrees: number } | undefined {
  const fits = rowsAlong(station, points(fresh).filter(isMark)).map((row) => fitOf(row, station.name));
  return fits.find(({ chiSquare, degrees }) => degrees > 0 && chiSquare > chiSquareQuantile(SURE, degrees));
}

/** Both axes together. */
function fitOf(row: readonly Mark[], own: string): { chiSquare: number; degrees: number } {
  const legs = row.map((mark) => mark.carriages[own]!);
  const u = row.map((mark) => mark.u);
  const fits = (['right', 'up'] as const).map((part) => lineFit(legs, row.map((mark) => mark[part]), u));
  const lines = fits.filter((fit) => fit.slope !== undefined);
  return { chiSquare: lines.reduce((sum, line) => sum + line.chiSquare, 0), degrees: lines.reduce((sum, line) => sum + line.degreesOfFreedom, 0) };
}
