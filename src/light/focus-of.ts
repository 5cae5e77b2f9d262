/** What the lens makes of the beam that reaches it. */
import type { Evaluation, Focus, LightCorner, LightLack, Machine, PathElement, StationReport } from '../model/index.ts';
import { aberrationSpot, depthOfFocus, diffractionSpot, leanOf, spotShift, zincSelenideIndex, type Beam } from '../optics/index.ts';

type Lens = PathElement & { readonly focal: number };

export function lensOf({ path }: Machine): Lens | undefined {
  return path.find((element): element is Lens => element.kind === 'lens' && element.focal !== undefined);
}

export function focusOf(machine: Machine, beam: Beam, corners: readonly LightCorner[], { stations }: Pick<Evaluation, 'stations'>): Focus | undefined {
  const lens = lensOf(machine);
  const wide = lens ? corners.flatMap((corner) => corner.stations.filter(({ name }) => name === lens.name).map(({ diameter }) => diameter)) : [];
  if (!lens || wide.length === 0) return undefined;
  const diameter = { least: Math.min(...wide), most: Math.max(...wide) };
  const spot = (of: number) => diffractionSpot(beam.wavelength, beam.ratio, lens.focal, of);
  const blur = aberrationOf(lens, beam, diameter.most);
  return {
    station: lens.name,
    diameter,
    spot: { least: spot(diameter.most), most: spot(diameter.least) },
    depth: depthOfFocus(beam.wavelength, beam.ratio, spot(diameter.most)),
    ...(blur && { aberration: blur }),
    ...bearings(lens, stations.find(({ name }) => name === lens.name)),
  };
}

/** What is missing for the blur, or why it cannot be told. */
export function lensLacks(machine: Machine, beam: Pick<Beam, 'wavelength'>): LightLack[] {
  const lens = lensOf(machine);
  if (!lens) return [{ field: 'path.lens.focal', say: 'Give the lens its `focal` length (`focal: 50.8 mm`) to be told the spot.' }];
  const at = `path.${lens.name}`;
  if (lens.material === undefined) return [{ field: `${at}.material`, say: `Write \`material: ZnSe\` at ${lens.name}, if that is what it is, to be told its spherical aberration.` }];
  if (!isZincSelenide(lens)) return [{ field: `${at}.material`, say: `Spherical aberration is worked out for ZnSe alone; ${lens.name} is of another material.` }];
  if (lens.shape === 'meniscus') return [{ field: `${at}.shape`, say: `Spherical aberration of a meniscus hangs on its two radii, which a workbook does not give.` }];
  if (zincSelenideIndex(beam.wavelength) === undefined) return [{ field: 'source.wavelength', say: 'The index of ZnSe is known from 0.54 to 18.2 µm only.' }];
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

/** From the marks on the lens and the beam's plumb there, if they still hold. */
function bearings({ focal }: Lens, station: StationReport | undefined): Pick<Focus, 'lean' | 'shift'> {
  if (!station || station.staleSince !== undefined) return {};
  const marks = station.readings.flatMap(({ height, none, right, up, u }) => (height === 0 && !none && right !== undefined && up !== undefined ? [{ right, up, u }] : []));
  const worst = marks.reduce<(typeof marks)[number] | undefined>((most, one) => (most && Math.hypot(most.right, most.up) >= Math.hypot(one.right, one.up) ? most : one), undefined);
  const { slope } = station;
  return {
    ...(worst && { lean: { right: leanOf(worst.right, focal), up: leanOf(worst.up, focal), u: worst.u / focal } }),
    ...(slope && { shift: { right: spotShift(slope.right, focal), up: spotShift(slope.up, focal), u: { right: slope.u.right * focal, up: slope.u.up * focal } } }),
  };
}
