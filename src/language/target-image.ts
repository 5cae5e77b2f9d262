/** The tape of a station as an image for Markdown, with a text for those who do not see it. */
import { placeInCell } from '../alignment/index.ts';
import { drawTarget, type TargetMark } from '../drawing/index.ts';
import type { StationReport } from '../model/index.ts';
import { stateInWords } from './station-words.ts';

/** @param aperture diameter, mm  @param limit greatest distance from the middle, mm */
export function targetImage(report: StationReport, aperture: number, limit: number | undefined): string {
  const { name, frame, readings, state } = report;
  const marks = readings.flatMap(({ height, none, right, up, u, at, with: others }): TargetMark[] =>
    height > 0 || none || right === undefined || up === undefined ? [] : [{ place: placeInCell(at, others), right, up, u }],
  );
  const svg = drawTarget({ station: name, aperture, frame, marks, stale: state === 'stale', ...(limit !== undefined && { limit }) });
  const alternative = `Tape on ${name}, ${marks.length} ${marks.length === 1 ? 'mark' : 'marks'}: ${stateInWords(report)}`;
  return `![${alternative}](data:image/svg+xml,${encoded(svg)})`;
}

/** Brackets would end the address. */
function encoded(text: string): string {
  return encodeURIComponent(text).replace(/[()']/g, (sign) => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`);
}
