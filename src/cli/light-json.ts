/**
 * `light --json`, one line: `{format, file, beam, corners, focus, eyewear, lacks, findings}`, as `Light` in the model
 * except that angles are mrad (`divergence`, `lean`). Lengths mm, diameters 1/e², losses as ratios, irradiance W/m²,
 * times s; `u` and names ending in U are standard uncertainties. Unknown values are absent.
 */
import type { Axes, Light } from '../model/index.ts';
import type { PlacedFinding } from './findings.ts';
import { jsonLine } from './json-line.ts';

const FORMAT = 1;
/** mrad per rad */
const MILLI = 1000;

export function lightJson(file: string, light: Light | undefined, findings: readonly PlacedFinding[]): string {
  const { beam, corners = [], focus, eyewear, lacks = [] } = light ?? {};
  const lean = focus?.lean;
  return jsonLine({
    format: FORMAT,
    file,
    beam: beam && {
      ...beam,
      divergence: beam.divergence * MILLI,
      u: { ...beam.u, divergence: beam.u.divergence * MILLI },
    },
    corners,
    focus: focus && { ...focus, ...(lean && { lean: { ...lean, ...inMilli(lean), u: inMilli(lean.u) } }) },
    eyewear,
    lacks,
    findings,
  });
}

function inMilli({ right, up }: Axes): Axes {
  return { right: right * MILLI, up: up * MILLI };
}
