/** The focus behind the lens. */
import type { Axes, Evaluation, Focus, LightLack, LightRange, Machine, PathElement, Quantity } from '../model/index.ts';
import {
  aberrationSpot,
  diameterAt,
  cutLean,
  rayleighLength,
  spotShift,
  throughLens,
  zincSelenideIndex,
  type Beam,
  type ShapeFactor,
} from '../optics/index.ts';
import type { Corner } from './corners.ts';
import { farthest, validReadings, isHit } from './marks.ts';
import { combinedUncertainty } from './combined-uncertainty.ts';
import type { Tube } from './tube.ts';
import { widthsOn, type Width } from './widths-on.ts';

type Lens = PathElement & { readonly focal: Quantity };

function lensOf({ path }: Machine): Lens | undefined {
  return path.find(
    (element): element is Lens => element.kind === 'lens' && element.focal !== undefined && element.focal.value > 0,
  );
}

/** Undefined without a lens, if its leg is unknown, or if it does not focus the beam. */
export function focusOf(
  machine: Machine,
  tube: Tube,
  corners: readonly Corner[],
  { stations }: Pick<Evaluation, 'stations'>,
): Focus | undefined {
  const lens = lensOf(machine);
  const onLens = lens ? widthsOnLens(machine, lens, tube, corners) : [];
  const widest = onLens.at(-1);
  if (!lens || !widest || onLens.some((width) => !isGathered(tube.beam, lens, width))) return undefined;
  const all = onLens.map((width) => evaluator(tube, lens, width));
  const span = (of: Figure): LightRange => {
    const values = all.map((evaluate) => evaluate(of));
    return {
      least: Math.min(...values.map(({ value }) => value)),
      most: Math.max(...values.map(({ value }) => value)),
      u: Math.max(...values.map(({ u }) => u)),
    };
  };
  const blur = aberrationOf(lens, tube.beam, evaluator(tube, lens, widest));
  return {
    station: lens.name,
    diameter: span(width),
    spot: span(spot),
    depth: span(depth),
    ...(blur && { aberration: blur }),
    ...bearings(lens, stations),
  };
}

/** The reason why a lens at a known position forms no spot. */
export function spotLacks(machine: Machine, tube: Tube, corners: readonly Corner[]): LightLack[] {
  const lens = lensOf(machine);
  if (!lens || widthsOnLens(machine, lens, tube, corners).every((width) => isGathered(tube.beam, lens, width)))
    return [];
  return [
    {
      field: `path.${lens.name}.focal`,
      say: `The spot cannot be computed: the beam diverges faster than ${lens.name} focuses it. Check the focal length and the divergence.`,
    },
  ];
}

/** Widths on the lens, one for each corner, the narrowest first. */
function widthsOnLens(machine: Machine, lens: Lens, tube: Tube, corners: readonly Corner[]): Width[] {
  const at = machine.path.indexOf(lens);
  return corners
    .flatMap(({ legs }) => widthsOn(machine, tube, legs)[at] ?? [])
    .sort((one, other) => one.diameter - other.diameter);
}

/** A result computed from the beam, the distance of the lens along it, and the focal length. */
type Figure = (beam: Beam, along: number, focal: number) => number;

const width: Figure = (beam, along) => diameterAt(beam, along);
const spot: Figure = (beam, along, focal) => throughLens(beam, along, focal).waist;
/** Depth of focus: to √2 of the spot in both directions. */
const depth: Figure = (beam, along, focal) => 2 * rayleighLength(throughLens(beam, along, focal));

/** Whether the waist is real: behind the lens. */
function isGathered(beam: Beam, { focal }: Lens, { along }: Width): boolean {
  return throughLens(beam, along, focal.value).at > along;
}

type Evaluate = (of: Figure) => Required<Quantity>;

/**
 * Computes results with their uncertainty: from the tube's values, which change the beam, and the legs, which move the
 * lens along it.
 */
function evaluator({ figures, beamIf }: Tube, { focal }: Lens, { along, alongU }: Width): Evaluate {
  return (of) =>
    withUncertainty(
      (place, f, ...values) => of(beamIf(...values), place, f),
      [{ value: along, u: alongU }, focal, ...figures],
    );
}

/** The reasons why the spot or its aberration is unknown. */
export function lensLacks(machine: Machine, { wavelength }: Pick<Beam, 'wavelength'>): LightLack[] {
  const lens = lensOf(machine);
  if (!lens)
    return [
      {
        field: 'path.lens.focal',
        say: 'The spot cannot be computed: no element of the path has a `focal` length. Add that of the lens (`focal: 50.8 mm`).',
      },
    ];
  const { name, material, shape } = lens;
  const unknown = (field: string, because: string): LightLack[] => [
    { field, say: `The aberration of ${name} cannot be computed: ${because}` },
  ];
  if (material === undefined)
    return unknown(`path.${name}.material`, 'its material is missing. Add `material: ZnSe` if it is zinc selenide.');
  if (!isZincSelenide(lens)) return unknown(`path.${name}.material`, 'it is computed for ZnSe only.');
  if (shape === 'meniscus')
    return unknown(
      `path.${name}.shape`,
      'that of a meniscus depends on its two radii, which a workbook does not give.',
    );
  if (zincSelenideIndex(wavelength) === undefined)
    return unknown('source.wavelength', 'the index of ZnSe is published from 0.54 to 18.2 µm only.');
  return [];
}

function aberrationOf(lens: Lens, { wavelength }: Beam, evaluate: Evaluate): Focus['aberration'] {
  const index = zincSelenideIndex(wavelength);
  if (index === undefined || !isZincSelenide(lens) || lens.shape === 'meniscus') return undefined;
  const blur = (shapeFactor: ShapeFactor) =>
    evaluate((beam, along, focal) => aberrationSpot(index, shapeFactor, focal, diameterAt(beam, along)));
  const [right, wrong] = lens.shape === 'biconvex' ? [blur(0.5), blur(0.5)] : [blur(1), blur(0)];
  return { right: right.value, wrong: wrong.value, u: { right: right.u, wrong: wrong.u } };
}

function isZincSelenide({ material }: PathElement): boolean {
  return /^(znse|zinc selenide)$/i.test(material ?? '');
}

/** Lean of a cut and shift of the spot, from fresh marks on the lens and the beam's plumb there. */
function bearings({ name, focal }: Lens, stations: Evaluation['stations']): Pick<Focus, 'lean' | 'shift'> {
  const station = stations.find((report) => report.name === name);
  const worst = farthest(validReadings(stations, name).filter(isHit));
  const slope = station?.staleSince === undefined ? station?.slope : undefined;
  const plumb = (axis: 'right' | 'up'): Quantity => (slope ? { value: slope[axis], u: slope.u[axis] } : { value: 0 });
  const lean =
    worst && both((axis) => withUncertainty(cutLean, [{ value: worst[axis], u: worst.u }, plumb(axis), focal]));
  const shift = slope && both((axis) => withUncertainty(spotShift, [plumb(axis), focal]));
  return { ...(lean && { lean: { ...lean, isPlumbKnown: slope !== undefined } }), ...(shift && { shift }) };
}

function withUncertainty(of: (...values: number[]) => number, given: readonly Quantity[]): Required<Quantity> {
  return { value: of(...given.map(({ value }) => value)), u: combinedUncertainty(of, given) };
}

function both(of: (axis: 'right' | 'up') => Required<Quantity>): Axes & { readonly u: Axes } {
  const [right, up] = [of('right'), of('up')];
  return { right: right.value, up: up.value, u: { right: right.u, up: up.u } };
}
