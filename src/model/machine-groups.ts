/** The machines in groups by what somebody must do, within a group by day, then by name. */
import { MACHINE_GROUPS, type ListedMachine, type MachineGroup } from './machine-summary.ts';

export interface ListedGroup {
  readonly group: MachineGroup;
  readonly machines: readonly ListedMachine[];
}

/** Groups without a machine are left out. */
export function inGroups(machines: readonly ListedMachine[]): ListedGroup[] {
  return MACHINE_GROUPS.flatMap((group) => {
    const own = machines.filter((one) => one.group === group).toSorted(before);
    return own.length > 0 ? [{ group, machines: own }] : [];
  });
}

/** What needs somebody, or is due, comes first without a day: nobody knows how long it has waited. In service it comes last. */
function before(one: ListedMachine, other: ListedMachine): number {
  return dayOf(one).localeCompare(dayOf(other)) || nameOf(one).localeCompare(nameOf(other));
}

function dayOf(machine: ListedMachine): string {
  const never = machine.group === 'service' ? '9999-99-99' : '';
  return ('on' in machine ? machine.on : undefined) ?? never;
}

function nameOf(machine: ListedMachine): string {
  return 'name' in machine ? machine.name : machine.uri;
}

/** The names, with the file where two machines have one name. */
export function namesOf(machines: readonly ListedMachine[]): ReadonlyMap<ListedMachine, string> {
  const counts = new Map<string, number>();
  for (const one of machines) if ('name' in one) counts.set(one.name, (counts.get(one.name) ?? 0) + 1);
  return new Map(
    machines.map((one): [ListedMachine, string] => {
      const file = decodeURIComponent(one.uri.slice(one.uri.lastIndexOf('/') + 1));
      if (!('name' in one)) return [one, file];
      return [one, counts.get(one.name)! > 1 ? `${one.name} (${file.replace(/\.alignbook\.yaml$/, '')})` : one.name];
    }),
  );
}
