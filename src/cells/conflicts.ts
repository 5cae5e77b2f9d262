/**
 * Version-control conflicts in a file. No text of either side may be lost, and a marker without its partners must not
 * hide what follows: only a conflict with its three markers in order has sides, and a stray marker is a line that is
 * not parsed.
 */
import { markersIn, type Marker, type MarkerKind } from './markers.ts';

/** A span of the file, `to` exclusive. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

export interface Conflict extends Stretch {
  /** the marker lines themselves, which are not parsed */
  readonly markers: readonly Marker[];
  /** absent if a marker is missing: then all text in between is parsed */
  readonly sides?: { readonly ours: Stretch; readonly base: Stretch; readonly theirs: Stretch };
}

/** The marker lines of a conflict, in order. */
export const CONFLICT_MARKERS: readonly MarkerKind[] = ['<<<<<<<', '|||||||', '=======', '>>>>>>>'];

/** All conflicts of a text, complete or not, in file order. They do not overlap. */
export function conflictsIn(text: string): Conflict[] {
  return conflictsOf(markersIn(text, CONFLICT_MARKERS));
}

/** The same, from its marker lines. */
export function conflictsOf(markers: readonly Marker[]): Conflict[] {
  const groups: Marker[][] = [];
  let last = CONFLICT_MARKERS.length;
  for (const marker of markers) {
    const rank = CONFLICT_MARKERS.indexOf(marker.kind);
    if (rank > last) groups.at(-1)!.push(marker);
    else groups.push([marker]);
    last = rank;
  }
  return groups.map(conflictAt);
}

/** The markers that a conflict lacks; empty for a complete one. */
export function missingMarkers({ markers }: Conflict): MarkerKind[] {
  return CONFLICT_MARKERS.filter((kind) => kind !== '|||||||' && !markers.some((marker) => marker.kind === kind));
}

function conflictAt(markers: readonly Marker[]): Conflict {
  const [ours, base, theirs, end] = CONFLICT_MARKERS.map((kind) => markers.find((marker) => marker.kind === kind));
  const stretch = { from: markers[0]!.start, to: markers.at(-1)!.next, markers };
  if (!ours || !theirs || !end) return stretch;
  return {
    ...stretch,
    sides: {
      ours: { from: ours.next, to: (base ?? theirs).start },
      base: base ? { from: base.next, to: theirs.start } : { from: theirs.start, to: theirs.start },
      theirs: { from: theirs.next, to: end.start },
    },
  };
}
