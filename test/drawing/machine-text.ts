/** A layout of the optics' tests as a person would write it down. */
import type { Layout } from '../../src/optics/index.ts';

export function machineText(layout: Layout): string {
  const path = layout.elements.map(
    ({ name, leg, sends }) =>
      `  ${name}: {leg: ${leg} mm, aperture: 18 mm, ${sends ? `sends: ${sends}, mount: corner` : 'focal: 50.8 mm'}}`,
  );
  return `machine: any\nsource: {wavelength: 10.6 um, fires: ${layout.fires}}\npath:\n${path.join('\n')}\nmounts:\n  corner:\n    screws:\n      A: {right: -22 mm, up: 22 mm}\n      B: {right: 22 mm, up: -22 mm}\n      C: {right: -22 mm, up: -22 mm}\n    thread: M4\n    in: toward beam\n`;
}
