/** The mount of a part of the machine. */
import { lookup } from './lookup.ts';
import type { Machine, MountDescription } from './machine.ts';

/** Undefined if the part has no mount, or is no element of the path. */
export function mountOf(machine: Machine, part: string): MountDescription | undefined {
  const name = machine.path.find((element) => element.name === part)?.mount;
  return name === undefined ? undefined : lookup(machine.mounts, name);
}
