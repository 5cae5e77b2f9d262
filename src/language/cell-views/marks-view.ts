/** Below marks: their tape, the verdict and the requirements, as they were after this cell. */
import { percent, shortPlace } from '../../words/index.ts';
import type { MarksEntry, MarksView, Requirement, RequirementRow, StationReport } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import type { IndexedEntry } from '../book/entries-of.ts';
import { targetFigure } from '../figures/target.ts';
import { measuredParts, shortState, slopeInWords } from '../words/station-words.ts';

/** Undefined without a machine, or if the station is not on its path. */
export function marksView(
  book: Book,
  { entry, index, cell }: IndexedEntry & { readonly entry: MarksEntry },
): MarksView | undefined {
  const figure = targetFigure(book, entry.station, { count: index + 1 });
  const report = book.log.report(entry.station, index + 1);
  if (!figure || !report) return undefined;
  const slope = slopeInWords(report);
  return {
    kind: 'marks',
    figure,
    ...verdictOf(report, deviationIn(book, cell)),
    requirements: report.requirements.map((requirement) => rowOf(requirement, report)),
    ...(slope && { slope }),
  };
}

function verdictOf(
  { state, probability }: StationReport,
  deviation: string | undefined,
): Pick<MarksView, 'state' | 'word' | 'detail'> {
  if (deviation !== undefined) return { state: 'unexplained', word: 'unexplained', detail: deviation };
  const [word, detail] = state === 'incomplete' ? [state, shortState(state)] : [shortState(state), undefined];
  if (probability !== undefined) return { state, word, detail: `${percent(probability)} within` };
  return { state, word, ...(detail !== undefined && { detail }) };
}

/** `predicted 0.2 left 0.9 up ± 3.2 mm`: where a mark should be that the log does not explain yet. */
function deviationIn(book: Book, cell: number): string | undefined {
  const finding = book.findings().find((one) => one.cell === cell && one.code === 'log.unexpected');
  if (!finding) return undefined;
  const { expected, within } = finding.facts;
  return `predicted ${expected} ± ${within}`;
}

function rowOf(requirement: Requirement, { carriages, frame }: StationReport): RequirementRow {
  const { limit, at, with: others, value, u, max, predicted } = requirement;
  const { given, measured } = measuredParts(limit, frame.units);
  const place = at === undefined ? '' : shortPlace(carriages, at, others);
  return {
    name: [limit, place].filter(Boolean).join(', '),
    ...(value !== undefined && u !== undefined && { value: measured({ value, u }) }),
    limit: given(max),
    isPredicted: predicted === true,
  };
}
