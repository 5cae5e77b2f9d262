/** Converts the problems of splitting, which have offsets in the file, to findings with offsets in their cell. */
import type { Split } from '../cells/index.ts';
import type { Finding } from '../model/index.ts';

export function cellFindings({ cells, problems }: Split): Finding[] {
  return problems.map(({ code, start, end, facts }) => {
    const cell = cells.findLastIndex(
      (candidate) => candidate.start <= start && start < candidate.start + candidate.text.length,
    );
    const from = cells[cell]?.start ?? 0;
    return { code, cell, span: { start: start - from, end: end - from }, facts };
  });
}
