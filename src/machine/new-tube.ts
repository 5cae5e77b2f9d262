/**
 * A new tube is aimed before any mirror, since the mirrors fit the old one. It counts as new until a screw or a block
 * of the path is moved, the machine is moved or knocked, or it is put back in service.
 */
import type { Entry } from '../model/index.ts';
import { TUBE } from './move.ts';

/** @returns whether the tube is new after this entry */
export function isTubeNewAfter(before: boolean, entry: Entry): boolean {
  switch (entry.kind) {
    case 'event':
      return isNewTube(entry.what);
    case 'session':
      return entry.reason === undefined ? before : isNewTube(entry.reason) || before;
    case 'care':
      return before || (entry.part === TUBE && entry.did === 'replaced');
    case 'adjust':
      return (
        before &&
        (entry.part === TUBE ||
          (entry.shift === undefined && Object.values(entry.turns).every((amount) => amount === 0)))
      );
    case 'release':
      return before && entry.to !== 'in service';
    case 'machine':
      return false;
    default:
      return before;
  }
}

function isNewTube(what: string): boolean {
  return /\bnew\s+(laser\s+)?tube\b/i.test(what);
}

/** Whether the tube is new at a state of the log. */
export function afterNewTube({ isTubeNew }: { readonly isTubeNew: boolean }): boolean {
  return isTubeNew;
}
