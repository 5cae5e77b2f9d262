/** The tape of a station as a Markdown image with an alternative text. */
import { targetInWords, toSvg } from '../../drawing/index.ts';
import type { Machine, StationReport } from '../../model/index.ts';
import { targetOf } from '../figures/target.ts';

/** Pixels; a hover is small and does not report its theme. */
const LAYOUT = { width: 220, legend: 'beside', theme: 'light' } as const;

export function targetImage(report: StationReport, machine: Machine): string {
  const figure = targetOf(report, machine);
  return `![${targetInWords(figure).replace(/[[\]]/g, '\\$&')}](data:image/svg+xml,${encoded(toSvg(figure, LAYOUT))})`;
}

/** Brackets would end the address. */
function encoded(text: string): string {
  return encodeURIComponent(text).replace(/[()']/g, (sign) => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`);
}
