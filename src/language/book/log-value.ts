/** Values of the log for arithmetic, by name. */
import type { Log } from '../../evaluation/index.ts';
import { diameterComponents, diameterOn } from '../../light/index.ts';
import type { Amount, Machine, StationReport } from '../../model/index.ts';
import { LOG_NAMES, WIDTH_ON, type Known } from '../../workbook/index.ts';
import { offCentre, required } from './off-centre.ts';

export interface Moment {
  readonly log: Log;
  /** The machine in force there. */
  readonly machine: Machine | undefined;
  /** Number of entries. */
  readonly count: number;
}

/** The value after a number of entries, or why it is not known yet; undefined for any other name. */
export function logValue({ log, machine, count }: Moment, name: string): Known | { readonly why: string } | undefined {
  if (name.startsWith(WIDTH_ON.prefix)) return widthOn(machine, name.slice(WIDTH_ON.prefix.length));
  const dot = name.indexOf('.');
  const [station, what] = [name.slice(0, dot), name.slice(dot + 1)];
  if (dot < 1 || !Object.hasOwn(LOG_NAMES, what)) return undefined;
  const report = log.report(station, count);
  if (!report) return undefined;
  if (report.readings.length === 0) return { why: `${station} has not been shot` };
  const amount = amountOf(report, what);
  return amount
    ? { ...amount, dimension: LOG_NAMES[what]!.dimension }
    : { why: `the marks on ${station} do not give it` };
}

function widthOn(machine: Machine | undefined, station: string): Known | { readonly why: string } | undefined {
  if (!machine?.path.some(({ name }) => name === station)) return undefined;
  const farthest = Object.fromEntries(
    machine.path.flatMap(({ name, stops }) =>
      stops ? [[name, Math.max(...Object.values(stops).map(({ value }) => value))]] : [],
    ),
  );
  const value = diameterOn(machine, station, farthest);
  if (value === undefined) return { why: 'the machine cell does not give the divergence of the beam' };
  const components = diameterComponents(machine, station, farthest);
  return { value, dimension: WIDTH_ON.dimension, ...(components.size > 0 && { components }) };
}

function amountOf(report: StationReport, what: string): Amount | undefined {
  const { slope } = report;
  switch (what) {
    case 'slope.right':
      return slope && { value: slope.right, u: slope.u.right };
    case 'slope.up':
      return slope && { value: slope.up, u: slope.u.up };
    case 'centre':
      return offCentre(report).centre;
    case 'spread':
      return offCentre(report).spread;
    default:
      return required(report, 'plumb');
  }
}
