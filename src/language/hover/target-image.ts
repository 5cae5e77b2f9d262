/** The tape of a station as an image for Markdown, with a text for those who do not see it. */
import { targetInWords, toSvg } from '../../drawing/index.ts';
import type { Machine, StationReport } from '../../model/index.ts';
import { targetOf } from '../figures/target.ts';

/** Pixels of the tape: a hover is small, and cannot say whether it is dark. */
const SHEET = { width: 220, legend: 'beside', theme: 'light' } as const;

export function targetImage(report: StationReport, machine: Machine): string {
  const figure = targetOf(report, machine);
  return `![${targetInWords(figure).replace(/[[\]]/g, '\\$&')}](data:image/svg+xml,${encoded(toSvg(figure, SHEET))})`;
}

/** Brackets would end the address. */
function encoded(text: string): string {
  return encodeURIComponent(text).replace(/[()']/g, (sign) => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`);
}
