/**
 * Long logs of a dozen lines a cell: the size of years of work on one machine. The same text for the same number. Marks
 * are those of a simulated machine whose screws are turned as the log says; or, where they contradict each other, of
 * none.
 */
import { ENGRAVERS, afterTransport } from '../simulation/machines.ts';
import { Engraver } from '../simulation/engraver.ts';
import { random } from '../simulation/random.ts';
import { inWords } from '../simulation/technician.ts';
import { ordinary } from '../simulation/workshop.ts';
import { LEGS, withTilt, type Plan } from '../simulation/world.ts';

const HEAD = `machine: plover
source:
  wavelength: 10.6 um
  power: 60 W
  fires: left
path:
  M1: {leg: 90 mm, aperture: 20 mm, sends: front, mount: corner}
  M2: {rides: gantry, stops: {near: 130 mm, far: 690 mm}, aperture: 20 mm, sends: right, mount: corner}
  M3: {rides: head, stops: {near: 70 mm, far: 910 mm}, aperture: 18 mm, sends: down, mount: corner}
  lens: {leg: 60 mm, aperture: 18 mm, focal: 50.8 mm}
mounts:
  corner:
    screws: {A: {right: -22 mm, up: 22 mm}, B: {right: 22 mm, up: -22 mm}, C: {right: -22 mm, up: -22 mm}}
    thread: M4
    in: toward beam
---
limits: workshop
stations:
  M1: {centre: 3 mm}
  M2: {centre: 2.5 mm, spread: 2 mm}
  M3: {centre: 2.5 mm, spread: 2 mm}
  lens: {centre: 2 mm}
`;

/** Cells of one visit. */
const VISIT = 20;
const STATIONS = ['M1', 'M2', 'M3', 'lens'];

type Stop = 'near' | 'far';
/** The mark at a station for these positions of gantry and head, in words. */
type Marks = (station: string, gantry?: Stop, head?: Stop) => string;

export function workbookOf(cells: number): string {
  const machine = engraver();
  const draw = random(2);
  return assembled(cells, (k) => {
    if (k % VISIT === 0) drift(machine, draw);
    const turned = turnAt(k);
    if (turned) for (const [screw, turns] of Object.entries(turned.turns)) machine.turn(turned.mirror, screw, turns);
    return marksOf(machine);
  });
}

/** The same with marks that no machine makes: every visit is full of unexplained marks. */
export function contradictoryOf(cells: number): string {
  return assembled(cells, (k) => {
    const tenth = (of: number) => ((k * of) % 31) / 10;
    return (station, gantry) =>
      `${gantry === 'far' ? `${tenth(7)} left ${tenth(2)}` : `${tenth(3)} right ${tenth(5)}`} ${station === 'lens' ? 'rear' : 'up'}`;
  });
}

function assembled(cells: number, marksAt: (k: number) => Marks): string {
  return [HEAD, ...Array.from({ length: Math.max(0, cells - 2) }, (_, k) => cellOf(k, marksAt(k)))].join('---\n');
}

const PLAN: Plan = {
  ...ENGRAVERS[0]!,
  mount: 'three screws',
  in: 1,
  heads: 'behind',
  places: 'given',
  units: 'mm',
  doubt: 20,
};

function engraver(): Engraver {
  return new Engraver(PLAN, afterTransport(random(1), PLAN, 0.3), ordinary(random(3)));
}

/** Standard deviation of the drift of a mirror from one visit to the next, slopes. */
const DRIFT = 0.0001;

function drift(machine: Engraver, draw: ReturnType<typeof random>): void {
  for (const mirror of [0, 1, 2])
    machine.truth = withTilt(machine.truth, PLAN, mirror, DRIFT * draw.normal(), DRIFT * draw.normal());
}

function marksOf(machine: Engraver): Marks {
  return (name, gantry = 'near', head = 'near') => {
    const station = STATIONS.indexOf(name);
    const [mark] = machine.shoot(station, [{ carriages: { M2: LEGS.M2[gantry], M3: LEGS.M3[head] } }]);
    return mark ? inWords(mark, station === 0 ? PLAN.fires : PLAN.sends[station - 1]!, PLAN.units) : 'none';
  };
}

/** Once in a visit screws of one mirror are turned, and turned back later. */
function turnAt(
  k: number,
): { readonly mirror: number; readonly turns: { readonly A: number; readonly B: number } } | undefined {
  const mirror = Math.floor(k / VISIT) % 3;
  if (k % VISIT === 9) return { mirror, turns: { A: 1 / 8, B: -1 / 16 } };
  return k % VISIT === 13 ? { mirror, turns: { A: -1 / 8, B: 1 / 16 } } : undefined;
}

function cellOf(k: number, mark: Marks): string {
  const day = new Date(Date.UTC(2026, 0, 1 + Math.floor(k / VISIT))).toISOString().slice(0, 10);
  const signature = `date: ${day}\nby: kt\nnote: |\n  Pulse 15 % for 100 ms, tape fresh.\n  The gantry ran freely.\n`;
  const turned = turnAt(k);
  switch (k % VISIT) {
    case 0:
      return `session: visit ${k}\nreason: routine\n${signature}# Extraction on, covers closed, water at 21 degrees.\n# Nothing was changed since the last visit.\n# The lid switch was tried and works.\nx-humidity: 45 %\nx-room: 21\nx-visit: "${k}"\n`;
    case 5:
      return `care: lens\nfound: dusty\ndid: removed and cleaned\nwith: acetone\nrefit:\n  flat side: down\n  ring: snug\n  witness: lined up\n  hose: refitted\n${signature}`;
    case 9:
    case 13:
      return `adjust: M${turned!.mirror + 1}\nturn:\n  A: ${inTurns(turned!.turns.A)}\n  B: ${inTurns(turned!.turns.B)} turn\n${signature}# The screw turned stiffly.\n# Its nut was loose before.\n# Turned once, not corrected.\n`;
    case 3:
    case 11:
    case 17:
      return `marks: M1\nshots: ${mark('M1')}\ntape: fresh\n${signature}# One pulse, small round mark.\n# The tape was put on with the jig.\n# Read twice.\n# Nothing burnt.\n`;
    case 7:
    case 15:
      return `marks: lens\nshots:\n  - {at: here, mark: ${mark('lens')}}\n  - {at: here, with: {M2: far, M3: far}, mark: ${mark('lens', 'far', 'far')}}\ntape: fresh\n${signature}# Lens tube off.\n# Air hose off.\n`;
    case 6:
    case 14:
      return `marks: M3\nshots:\n  - {at: near, mark: ${mark('M3')}}\n  - {at: far, with: {M2: far}, mark: ${mark('M3', 'far', 'far')}}\ntape: fresh\n${signature}# Head against its stop.\n# Gantry against its stop.\n`;
    default:
      return `marks: M2\nshots:\n  near: ${mark('M2')}\n  far: ${mark('M2', 'far')}\ntape: fresh\n${signature}# Gantry against its stop.\n# Read twice.\n`;
  }
}

function inTurns(turns: number): string {
  return `${turns > 0 ? 'in' : 'out'} ${Math.abs(turns) === 1 / 8 ? '1/8' : '1/16'}`;
}
