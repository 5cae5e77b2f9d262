/** A long log of a dozen lines a cell: what years of one machine add up to. The same text for the same number. */

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

export function workbookOf(cells: number): string {
  return [HEAD, ...Array.from({ length: Math.max(0, cells - 2) }, (_, k) => cellOf(k))].join('---\n');
}

function cellOf(k: number): string {
  const tenth = (of: number) => ((k * of) % 31) / 10;
  const day = new Date(Date.UTC(2026, 0, 1 + Math.floor(k / 20))).toISOString().slice(0, 10);
  const signature = `date: ${day}\nby: kt\nnote: |\n  Pulse 15 % for 100 ms, tape fresh.\n  The gantry ran freely.\n`;
  switch (k % 20) {
    case 0: return `session: visit ${k}\nreason: routine\n${signature}# Extraction on, covers closed, water at 21 degrees.\n# Nothing was changed since the last visit.\n# The lid switch was tried and works.\nx-humidity: 45 %\nx-room: 21\nx-visit: "${k}"\n`;
    case 5: return `care: lens\nfound: dusty\ndid: removed and cleaned\nwith: acetone\nrefit:\n  flat side: down\n  ring: snug\n  witness: lined up\n  hose: refitted\n${signature}`;
    case 9: case 13: return `adjust: M${1 + (k % 3)}\nturn:\n  A: in 1/8\n  B: out 1/16 turn\n${signature}# The screw turned stiffly.\n# Its nut was loose before.\n# Turned once, not corrected.\n`;
    case 3: case 11: case 17: return `marks: M1\nshots: ${tenth(3)} right ${tenth(7)} up\ntape: fresh\n${signature}# One pulse, small round mark.\n# The tape was put on with the jig.\n# Read twice.\n# Nothing burnt.\n`;
    case 7: case 15: return `marks: lens\nshots:\n  - {at: here, mark: ${tenth(3)} right ${tenth(5)} rear}\n  - {at: here, with: {M2: far, M3: far}, mark: ${tenth(7)} left ${tenth(2)} front}\ntape: fresh\n${signature}# Lens tube off.\n# Air hose off.\n`;
    case 6: case 14: return `marks: M3\nshots:\n  - {at: near, mark: ${tenth(3)} right ${tenth(5)} up}\n  - {at: far, with: {M2: far}, mark: ${tenth(7)} left ${tenth(2)} down}\ntape: fresh\n${signature}# Head against its stop.\n# Gantry against its stop.\n`;
    default: return `marks: M2\nshots:\n  near: ${tenth(3)} right ${tenth(5)} up\n  far: ${tenth(7)} left ${tenth(2)} down\ntape: fresh\n${signature}# Gantry against its stop.\n# Read twice.\n`;
  }
}
