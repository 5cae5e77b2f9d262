/**
 * "Did you mean …?": the known word that a mistyped one most likely stands for. Optimal string alignment
 * (Damerau–Levenshtein with transpositions of neighbours), because swapped letters are the most common slip. Short
 * words allow few edits: two-letter words are all near each other.
 */

const LONGEST = 40;

/** The candidate nearest to `word` (ignoring case), or undefined if none is near; of equals the first. */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  if (word.length > LONGEST) return undefined;
  const lower = word.toLowerCase();
  const slack = word.length < 3 ? 0 : word.length < 6 ? 1 : word.length < 9 ? 2 : 3;
  let best: string | undefined;
  let least = slack + 1;
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - word.length) >= least) continue;
    const d = distance(lower, candidate.toLowerCase());
    if (d < least) [best, least] = [candidate, d];
  }
  return best;
}

/** The number of letters inserted, removed or changed, or neighbours swapped, that turns `a` into `b`. */
function distance(a: string, b: string): number {
  let before: number[] = [];
  let previous = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let d = Math.min(previous[j]! + 1, row[j - 1]! + 1, previous[j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) d = Math.min(d, before[j - 2]! + 1);
      row.push(d);
    }
    [before, previous] = [previous, row];
  }
  return previous[b.length]!;
}
