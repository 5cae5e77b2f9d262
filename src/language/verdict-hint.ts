/** At a marks cell: what the station was, as these marks left it. */
import { percent } from '../alignment/index.ts';
import type { StationReport } from '../model/index.ts';
import type { HintsFor } from './hints.ts';
import { inOneLine } from './in-one-line.ts';
import { slopeInWords, worstInBrief } from './station-words.ts';
import { stationDetails } from './station-details.ts';

export const verdictHint: HintsFor = ({ log }, { entry, index }) => {
  if (entry.kind !== 'marks') return [];
  const report = log.report(entry.station, index + 1);
  const span = entry.spans['marks'];
  if (!report || !span) return [];
  return [{ span, label: verdictInBrief(report), tooltip: stationDetails(report).join('\n\n') }];
};

/** `outside, under 1 % · centre 8.1 of 2 mm (far)` */
export function verdictInBrief(report: StationReport): string {
  const { state, probability, requirements } = report;
  const bare = requirements.length === 0 && state !== 'stale' && state !== 'unread';
  const verdict = bare ? 'no limits' : state === 'stale' ? 'not shot at every place yet' : probability === undefined ? state : `${state}, ${percent(probability)}`;
  const slope = bare ? slopeInWords(report) : undefined;
  const parts = [verdict, worstInBrief(report), slope && `${slope.name} ${slope.words}`].filter((part) => part !== undefined);
  return inOneLine(parts, ' · ');
}
