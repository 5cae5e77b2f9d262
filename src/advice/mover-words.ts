/** What made the marks of a station stale, with the cell that logs it. */
import { amountInWords, cellPlace, sense, type AdjustEntry, type CareEntry, type Entry } from '../model/index.ts';
import { TUBE } from '../machine/index.ts';
import type { StationVerdict } from '../verdict/index.ts';
import { lastMoved, type State, type Moment } from '../estimate/index.ts';
import { shortened, listed } from '../words/index.ts';

/**
 * For a station with stale marks: `The marks on M2 are stale: screw B of M1 was turned in by 1/4 turn (line 40). Shoot
 * M2 again.`
 */
export function staleInWords(state: State, { report, station, contradicted }: StationVerdict): string {
  const why = contradicted
    ? contradictionInWords(contradicted.station, contradicted.moment)
    : inPlace(lastMoved(state, station));
  return `The marks on ${report.name} are stale: ${why}. Shoot ${report.name} again.`;
}

function contradictionInWords(station: string, { cell }: Moment): string {
  return `the marks on ${station} (${cellPlace(cell)}) contradict the log`;
}

function inPlace({ mover, cell }: Moment): string {
  return `${moverInWords(mover)} (${cellPlace(cell)})`;
}

function moverInWords(mover: Moment['mover']): string {
  if (mover === undefined) return SOMETHING;
  return typeof mover === 'string' ? `a ${mover}` : entryInWords(mover);
}

const SOMETHING = 'something was moved';

function entryInWords(entry: Entry): string {
  switch (entry.kind) {
    case 'event':
      return shortened(entry.what);
    case 'machine':
      return 'the machine cell was changed';
    case 'adjust':
      return adjustmentInWords(entry);
    case 'care':
      return removalInWords(entry);
    case 'unread':
      return 'a cell with errors';
    case 'limits':
    case 'session':
    case 'marks':
    case 'power':
    case 'measure':
    case 'checks':
    case 'note':
    case 'work':
    case 'release':
      return SOMETHING;
  }
}

function adjustmentInWords({ part, turns, shift, lock }: AdjustEntry): string {
  const name = part === TUBE ? 'the tube' : part;
  const screws = Object.entries(turns).map(
    ([screw, amount]) => `screw ${screw} of ${name} was turned ${sense(amount)} by ${amountInWords(amount)}`,
  );
  return listed([
    ...screws,
    ...(shift ? [`${part === TUBE ? name : `the block of ${name}`} was moved`] : []),
    ...(lock ? [`the lock nuts of ${name} were ${lock === 'tight' ? 'tightened' : 'loosened'}`] : []),
  ]);
}

function removalInWords({ part, did }: CareEntry): string {
  return `${part} was ${did ?? 'handled'}`;
}
