/** A station in full, as lines of Markdown. */
import type { StationReport } from '../../model/index.ts';
import { frameInWords, readingInWords, requirementInWords, slopeInWords, stateInWords } from './station-words.ts';

export function stationDetails(report: StationReport): string[] {
  const slope = slopeInWords(report);
  const lines = [
    ...report.readings.map((reading) => `mark ${readingInWords(reading, report)}`),
    ...(slope ? [`${slope.name} ${slope.words}`] : []),
    ...report.requirements.map((requirement) => `${requirement.limit} ${requirementInWords(requirement, report)}`),
  ];
  return [
    `**${report.name}**: ${stateInWords(report)}`,
    frameInWords(report.frame),
    ...(lines.length > 0 ? [lines.map((line) => `- ${line}`).join('\n')] : []),
    ...(report.state !== 'unlimited' ? [SOURCES] : []),
  ];
}

/** Sources of the formulas. */
const SOURCES =
  '*± is a standard uncertainty (JCGM 100). “Within” is the joint probability of meeting the limits, reading errors included (JCGM 106).*';
