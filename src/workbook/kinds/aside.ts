/** The meaning of the keys of any cell: date, person, hours of the machine, photos and corrections. */
import {
  child,
  pathInWords,
  pathTo,
  type Amendment,
  type Aside,
  type Path,
  type Photo,
  type Written,
} from '../../model/index.ts';
import { readDate } from '../quantities/index.ts';
import { WAS, type WrittenPhoto } from './common.ts';
import type { Cell } from './kind.ts';

/** As the schema returns it; some kinds have no `photo`. */
interface Read extends Pick<Aside, 'date' | 'by' | 'note' | 'hours'> {
  readonly photo?: readonly WrittenPhoto[];
  readonly amended?: readonly (Omit<Amendment, 'was'> & { readonly was: unknown })[];
}

/** The common values of a cell, as its entry has them. */
export function aside({ date, by, note, hours, photo, amended }: Read): Aside {
  return {
    ...(date !== undefined && { date }),
    ...(by !== undefined && { by }),
    ...(note !== undefined && { note }),
    ...(hours && { hours }),
    ...(photo && { photos: photo.map(photoOf) }),
    ...(amended && { amended: amended.map(amendmentOf) }),
  };
}

function photoOf({ file, sha256 }: WrittenPhoto): Photo {
  return sha256 === undefined ? { file } : { file, sha256 };
}

function amendmentOf({ was, ...rest }: NonNullable<Read['amended']>[number]): Amendment {
  return was === undefined ? rest : { was: was as { readonly [key: string]: Written }, ...rest };
}

/** Corrections must be in order of time, and cannot be corrected themselves. */
export function checkAmended({ amended = [] }: Aside, cell: Cell): void {
  const reportConflict = (path: Path, reason: string) =>
    cell.report(path, 'cell.together', { place: '`amended`', reason }, { atKey: true });
  amended.forEach(({ was, date }, k) => {
    const before = amended[k - 1]?.date;
    const path = pathTo('amended', k, 'was');
    if (was !== undefined && Object.keys(was).length === 0)
      cell.report(path, 'cell.shape', { place: `\`${pathInWords(path)}\``, wanted: WAS, found: 'an empty mapping' });
    if (was !== undefined && Object.hasOwn(was, 'amended'))
      reportConflict(child(path, 'amended'), 'a correction is never corrected; add one');
    if (before !== undefined && instant(date) < instant(before))
      reportConflict(pathTo('amended', k, 'date'), 'write the oldest correction first');
  });
}

function instant(date: string): number {
  return readDate(date).value?.milliseconds ?? NaN;
}
