/**
 * Screw threads by name: the pitch, and the spanner for the lock nut.
 *
 * A pitch in the name (`M4x0.5`, `1/4-80`) is used; a name without a pitch (`M4`, `8 UNC`) is looked up. A name that
 * contradicts the standard (`1/4-28 UNC`) is refused: somebody read the wrong box.
 *
 * Units: mm per turn. n threads per inch are exactly 25.4/n mm. Sources: coarse pitches and widths across flats from
 * ISO 4032, table 1; fine pitches as tabled publicly, all in the general plan of ISO 261, of which ISO 262 selects for
 * bolts and nuts only those from 8 mm on (both standards from memory); UNC and UNF threads per inch from ASME B1.1 as
 * tabled publicly.
 */

/** By size: coarse pitch, mm; width across flats of the ISO 4032 nut, mm; fine pitches, mm. */
const METRIC: Readonly<Record<string, { coarse: number; flats: number; fine: readonly number[] }>> = {
  'M1.6': { coarse: 0.35, flats: 3.2, fine: [] },
  M2: { coarse: 0.4, flats: 4, fine: [0.25] },
  'M2.5': { coarse: 0.45, flats: 5, fine: [0.35] },
  M3: { coarse: 0.5, flats: 5.5, fine: [0.35] },
  M4: { coarse: 0.7, flats: 7, fine: [0.5] },
  M5: { coarse: 0.8, flats: 8, fine: [0.5] },
  M6: { coarse: 1, flats: 10, fine: [0.75] },
  M8: { coarse: 1.25, flats: 13, fine: [1, 0.75] },
  M10: { coarse: 1.5, flats: 16, fine: [] },
  M12: { coarse: 1.75, flats: 18, fine: [] },
};

/** By size: threads per inch of the coarse and the fine series. */
const UNIFIED: Readonly<Record<string, { UNC: number; UNF: number }>> = {
  '4': { UNC: 40, UNF: 48 },
  '6': { UNC: 32, UNF: 40 },
  '8': { UNC: 32, UNF: 36 },
  '10': { UNC: 24, UNF: 32 },
  '1/4': { UNC: 20, UNF: 28 },
};

/** ` LH` or `-LH` behind a name: a left-hand thread of the same pitch, whose tip advances anticlockwise. */
const LEFT_HAND = /(?<!\s)(?:\s+|\s*-\s*)LH$/i;
const METRIC_NAME = /^M(?<diameter>\d+(?:\.\d+)?)(?:\s*[x×]\s*(?<pitch>\d+(?:\.\d+)?))?$/i;
const UNIFIED_NAME = /^#?(?<size>\d+(?:\/\d+)?)(?:-(?<perInch>\d+))?(?:\s*(?<series>UN[CFS]))?$/i;
const MILLIMETRES_PER_INCH = 25.4;

/** mm per turn of the thread of that name, or undefined if the name is unknown, contradicts itself or is incomplete. */
export function threadPitch(name: string): number | undefined {
  const size = sizeOf(name);
  return metricPitch(size) ?? unifiedPitch(size);
}

/** Whether the name says that the thread is left-handed: `M4 LH`, `M4-LH`. */
export function isLeftHanded(name: string): boolean {
  return LEFT_HAND.test(name.trim());
}

/** The name without the hand of its thread. */
function sizeOf(name: string): string {
  return name.trim().replace(LEFT_HAND, '');
}

function metricPitch(name: string): number | undefined {
  const { diameter, pitch } = METRIC_NAME.exec(name)?.groups ?? {};
  const size = METRIC[`M${diameter}`];
  if (size === undefined || pitch === undefined) return size?.coarse;
  // The coarse pitch is the largest of its size: `M4x7` is a slip of the decimal point.
  return Number(pitch) > 0 && Number(pitch) <= size.coarse ? Number(pitch) : undefined;
}

function unifiedPitch(name: string): number | undefined {
  const { size = '', perInch, series: written } = UNIFIED_NAME.exec(name)?.groups ?? {};
  const series = written?.toUpperCase();
  const standard = series === 'UNC' || series === 'UNF' ? UNIFIED[size]?.[series] : undefined;
  const threads = perInch === undefined ? standard : Number(perInch);
  if (threads === undefined || threads === 0) return undefined;
  return standard === undefined || standard === threads ? MILLIMETRES_PER_INCH / threads : undefined;
}

/**
 * mm across the flats of the standard nut (ISO 4032) of a metric thread, coarse or fine; undefined if none is known.
 */
export function nutFlats(name: string): number | undefined {
  const { diameter } = METRIC_NAME.exec(sizeOf(name))?.groups ?? {};
  return metricPitch(sizeOf(name)) === undefined ? undefined : METRIC[`M${diameter}`]?.flats;
}

/** Names of all threads in the tables in their preferred spelling, for suggestions. */
export function threadNames(): readonly string[] {
  const metric = Object.entries(METRIC).flatMap(([size, { fine }]) => [
    size,
    ...fine.map((pitch) => `${size}x${pitch}`),
  ]);
  const unified = Object.entries(UNIFIED).flatMap(([size, { UNC, UNF }]) => [
    `${size}-${UNC} UNC`,
    `${size}-${UNF} UNF`,
  ]);
  return [...metric, ...unified];
}
