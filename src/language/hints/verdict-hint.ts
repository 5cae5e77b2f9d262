/** At a marks cell: the station's state after these marks. */
import { percent } from '../../words/index.ts';
import { pathTo, type StationReport } from '../../model/index.ts';
import type { HintsFor } from './hint.ts';
import { inOneLine } from '../words/in-one-line.ts';
import { slopeInWords, shortState, worstRequirement } from '../words/station-words.ts';
import { stationDetails } from '../words/station-details.ts';

export const verdictHint: HintsFor = ({ log }, { entry, index }) => {
  if (entry.kind !== 'marks') return [];
  const report = log.report(entry.station, index + 1);
  const span = entry.spans[pathTo('marks')];
  if (!report || !span) return [];
  return [{ span, label: shortVerdict(report), tooltip: stationDetails(report).join('\n\n') }];
};

/** `outside, under 1 % · centre 8.1 of 2 mm (far)` */
function shortVerdict(report: StationReport): string {
  const { state, probability } = report;
  const verdict = probability === undefined ? shortState(state) : `${state}, ${percent(probability)}`;
  const slope = state === 'unlimited' ? slopeInWords(report) : undefined;
  const parts = [verdict, worstRequirement(report), slope && `${slope.name} ${slope.words}`].filter(
    (part) => part !== undefined,
  );
  return inOneLine(parts, ' · ');
}
