/** A mount whose turns repeatedly respond by another description: the machine cell is wrong. */
import { findingAt, pathTo, type Finding } from '../model/index.ts';
import { doubts } from '../estimate/index.ts';
import { fixOf, RESPONSES, whatIsWrong, type Alternative } from '../machine/index.ts';
import type { Outcome } from './rule.ts';

/**
 * Reported at the mount; if an earlier visit contains the machine cell, at the last turn of a mirror in such a mount,
 * since signed visits stay unchanged.
 */
export function contradicted({ state, entries, visit }: Outcome): Finding[] {
  const { mount } = doubts(state);
  if (!mount || mount.responses < RESPONSES) return [];
  const machine = entries.findLast(({ entry }) => entry.kind === 'machine');
  if (!machine) return [];
  const facts = { mount: mount.name, what: whatIsWrong(mount), fix: fixOf(mount), key: mount.kind };
  if (visit.includes(machine))
    return [findingAt(machine, pathTo('mounts', mount.name, keyOf(mount)), 'mount.contradicted', facts)];
  const turn = visit.findLast(
    ({ entry }) => entry.kind === 'adjust' && Object.keys(entry.turns).length > 0 && isIn(mount, entry.part),
  );
  return turn ? [findingAt(turn, pathTo('turn'), 'mount.contradicted', facts)] : [];
}

function isIn({ name, written: { path } }: Alternative, part: string): boolean {
  return path.some((element) => element.name === part && element.mount === name);
}

function keyOf({ kind }: Alternative): string {
  if (kind === 'in') return 'in';
  return kind.startsWith('pitch') ? 'pitch' : 'screws';
}
