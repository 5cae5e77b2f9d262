/**
 * Ways in which the machine cell may describe a mount wrongly: `in` the other way, the places mirrored, the names of
 * two screws swapped, the pitch doubled or halved. Each is another machine, whose response to turns is compared with
 * the marks.
 */
import { lengthsIn, lookup, type Machine, type MountDescription } from '../model/index.ts';
import { system, type System } from './system.ts';

/**
 * Number of responses that agree with another description and not with the written one from which on the machine cell
 * is wrong.
 */
export const RESPONSES = 2;

/**
 * Log prior probabilities: that a mount is described rightly, and of each wrong description; common practice, no
 * source.
 */
export const WRITTEN = Math.log(0.9);
/** Log prior probability of one wrong description. */
export const ALTERNATIVE = Math.log(0.02);
/** Another description of a mount. */
export interface Alternative {
  /** The mount's name in the machine cell. */
  readonly name: string;
  /** `in`, `mirrored`, `pitch × 2`, `pitch × 0.5`, or the two names exchanged as `A and B`. */
  readonly kind: string;
  readonly mount: MountDescription;
  readonly written: Machine;
  readonly system: System;
}

/**
 * Other descriptions of the mounts of these parts.
 * @param turned parts whose screws were turned: the others have had no response
 */
export function alternatives(system: System, turned: ReadonlySet<string>): Alternative[] {
  const { machine } = system;
  const names = new Set(
    machine.path.flatMap(({ name, mount }) => (mount !== undefined && turned.has(name) ? [mount] : [])),
  );
  return [...names].flatMap((name) => {
    const written = lookup(machine.mounts, name);
    if (!written || !system.screws.some(({ mount, effect }) => mount === written && effect)) return [];
    return variants(written).map(({ kind, mount }) => ({
      name,
      kind,
      mount,
      written: machine,
      system: systemWith(system, name, mount),
    }));
  });
}

function systemWith({ machine }: System, name: string, mount: MountDescription): System {
  return system({ ...machine, mounts: { ...machine.mounts, [name]: mount } });
}

interface Variant {
  readonly kind: string;
  readonly mount: MountDescription;
}

function variants(mount: MountDescription): Variant[] {
  return [
    { kind: 'in', mount: { ...mount, in: mount.in === 'toward beam' ? 'away from beam' : 'toward beam' } },
    { kind: 'mirrored', mount: mirrored(mount) },
    ...exchanged(mount),
    ...(mount.pitch === undefined
      ? []
      : [2, 0.5].map((factor) => ({ kind: `pitch × ${factor}`, mount: { ...mount, pitch: factor * mount.pitch! } }))),
  ];
}

function mirrored(mount: MountDescription): MountDescription {
  const across = <T extends MountDescription['screws'][string]>(place: T): T =>
    place.right ? { ...place, right: { ...place.right, value: -place.right.value } } : place;
  const screws = Object.fromEntries(Object.entries(mount.screws).map(([name, place]) => [name, across(place)]));
  return {
    ...mount,
    screws,
    ...(mount.pivot && { pivot: { ...mount.pivot, right: { ...mount.pivot.right, value: -mount.pivot.right.value } } }),
  };
}

function exchanged(mount: MountDescription): Variant[] {
  const names = Object.keys(mount.screws);
  return names.flatMap((one, k) =>
    names.slice(k + 1).map(
      (other): Variant => ({
        kind: `${one} and ${other}`,
        mount: { ...mount, screws: { ...mount.screws, [one]: mount.screws[other]!, [other]: mount.screws[one]! } },
      }),
    ),
  );
}

/** How turns respond, in contrast to the machine cell, in words. */
export function whatIsWrong({ kind, mount, written }: Alternative): string {
  if (kind === 'in') return 'each turn has the opposite effect to `in`';
  if (kind === 'mirrored') return 'the screws respond as if left and right of their places were swapped';
  if (kind.startsWith('pitch'))
    return `each turn has ${kind.endsWith('2') ? 'twice' : 'half'} the effect of the written pitch (it responds like ${pitchInWords(mount, written)})`;
  return `the screws respond as if the names ${kind} were swapped`;
}

/** What to write in the machine cell instead. */
export function fixOf({ kind, mount, written }: Alternative): string {
  if (kind === 'in') return `\`in: ${mount.in}\``;
  if (kind === 'mirrored') return 'the opposite sign at every `right` (places are given as you face the screw heads)';
  if (kind.startsWith('pitch')) return `\`pitch: ${pitchInWords(mount, written)}\``;
  return `the places of ${kind}, swapped`;
}

/** Rounded to a thousandth of a millimetre, as the cell should have it. */
function pitchInWords({ pitch }: Alternative['mount'], { units }: Alternative['written']): string {
  const { fine, unit } = lengthsIn(units);
  return `${Number(fine(pitch!, 3))} ${unit}`;
}
