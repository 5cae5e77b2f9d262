/** What the lens makes of the beam that reaches it. */
import type { Evaluation, Focus, LightCorner, LightLack, Machine, PathElement, LightRange } from '../model/index.ts';
import { aberrationSpot, depthOfFocus, diffractionSpot, leanOf, spotShift, zincSelenideIndex, type Beam } from '../optics/index.ts';
import { farthest, holding, isHit } from './marks.ts';
import { spreadOf } from './spread-of.ts';

type Lens = PathElement & { readonly focal: number };

export function lensOf({ path }: Machine): Lens | undefined {
  return path.find((element): element is Lens => element.kind === 'lens' && element.focal !== undefined && element.focal > 0);
}

export function focusOf(machine: Machine, beam: Beam, corners: readonly LightCorner[], { stations }: Pick<Evaluation, 'stations'>): Focus | undefined {
  const lens = lensOf(machine);
  const onLens = corners.flatMap((corner) => corner.stations.filter(({ name }) => name === lens?.name)).sort((one, other) => one.diameter - other.diameter);
  const [narrow, wide] = [onLens[0], onLens.at(-1)];
  if (!lens || !narrow || !wide) return undefined;
  const spot = (of: number) => diffractionSpot(beam.wavelength, beam.ratio, lens.focal, of);
  const depth = (of: number) => depthOfFocus(beam.wavelength, beam.ratio, spot(of));
  const span = (of: (diameter: number) => number): LightRange => {
    const ends = [narrow, wide].map(({ diameter, u }) => ({ value: of(diameter), u: spreadOf(of, [{ value: diameter, u }]) }));
    return { least: Math.min(...ends.map(({ value }) => value)), most: Math.max(...ends.map(({ value }) => value)), u: Math.max(...ends.map(({ u }) => u)) };
  };
  const blur = aberrationOf(lens, beam, wide.diameter);
  return { station: lens.name, diameter: span((of) => of), spot: span(spot), depth: span(depth), ...(blur && { aberration: blur }), ...bearings(lens, stations) };
}

/** Why the spot or its blur is not known. */
export function lensLacks(machine: Machine, { wavelength }: Pick<Beam, 'wavelength'>): LightLack[] {
  const lens = lensOf(machine);
  if (!lens) return [{ field: 'path.lens.focal', say: 'The spot is not known, because no element of the path has a `focal` length. Add the lens’s (`focal: 50.8 mm`).' }];
  const { name, material, shape } = lens;
  const unknown = (field: string, because: string): LightLack[] => [{ field, say: `What ${name} itself blurs is not known, because ${because}` }];
  if (material === undefined) return unknown(`path.${name}.material`, 'it is not written what it is made of. Add `material: ZnSe`, if that is what it is.');
  if (!isZincSelenide(lens)) return unknown(`path.${name}.material`, 'it is worked out for ZnSe alone.');
  if (shape === 'meniscus') return unknown(`path.${name}.shape`, 'that of a meniscus hangs on its two radii, which a workbook does not give.');
  if (zincSelenideIndex(wavelength) === undefined) return unknown('source.wavelength', 'the index of ZnSe is published from 0.54 to 18.2 µm only.');
  return [];
}

function aberrationOf(lens: Lens, { wavelength }: Beam, diameter: number): Focus['aberration'] {
  const index = zincSelenideIndex(wavelength);
  if (index === undefined || !isZincSelenide(lens) || lens.shape === 'meniscus') return undefined;
  const blur = (bending: 0 | 0.5 | 1) => aberrationSpot(index, bending, lens.focal, diameter);
  return lens.shape === 'biconvex' ? { right: blur(0.5), wrong: blur(0.5) } : { right: blur(1), wrong: blur(0) };
}

function isZincSelenide({ material }: PathElement): boolean {
  return /^(znse|zinc selenide)$/i.test(material ?? '');
}

/** From the marks on the lens and the beam's plumb there, as far as they still hold. */
function bearings({ name, focal }: Lens, stations: Evaluation['stations']): Pick<Focus, 'lean' | 'shift'> {
  const station = stations.find((one) => one.name === name);
  const worst = farthest(holding(stations, name).filter(isHit));
  const slope = station?.staleSince === undefined ? station?.slope : undefined;
  const { right, up, u } = slope ?? { right: 0, up: 0, u: { right: 0, up: 0 } };
  const lean = (offset: number, plumb: number) => leanOf(offset, plumb, focal);
  const leanU = (offset: number, plumb: number, plumbU: number) => spreadOf(lean, [{ value: offset, u: worst?.u ?? 0 }, { value: plumb, u: plumbU }]);
  return {
    ...(worst && { lean: { right: lean(worst.right, right), up: lean(worst.up, up), u: { right: leanU(worst.right, right, u.right), up: leanU(worst.up, up, u.up) }, isPlumbKnown: slope !== undefined } }),
    ...(slope && { shift: { right: spotShift(right, focal), up: spotShift(up, focal), u: { right: u.right * focal, up: u.up * focal } } }),
  };
}
