/**
 * A station's tape as one sees it looking along the beam: the hole, the limit, and where the beam met it at every place
 * of the carriages. A place is told by shape and letter as well as by colour. It draws its own background, because what
 * shows it cannot say whether it is dark.
 *
 * Colours: Okabe and Ito, Color Universal Design (2008), which people with any common colour vision tell apart.
 */
import { isVertical, opposite, type Direction } from '../model/index.ts';

export interface TargetMark {
  /** Where the carriages stood: `near`, `far, M2 far`. */
  readonly place: string;
  /** mm, viewer's frame. */
  readonly right: number;
  readonly up: number;
  /** Standard uncertainty of either part, mm. */
  readonly u: number;
}

export interface Target {
  readonly station: string;
  /** mm: diameter of the hole, and the greatest distance from its middle that is allowed. */
  readonly aperture: number;
  readonly limit?: number;
  /** What the machine calls the viewer's right and up. */
  readonly frame: { readonly runs: Direction; readonly right: Direction; readonly up: Direction };
  readonly marks: readonly TargetMark[];
  /** Marks from before something moved are drawn pale. */
  readonly stale: boolean;
}

const INK = '#1b2a33';
const PALE = '#8a979e';
const PAPER = '#fbf8f1';
const OKABE_ITO = ['#0072B2', '#D55E00', '#009E73', '#CC79A7', '#E69F00', '#56B4E9'] as const;

const WIDTH = 380;
const HEIGHT = 190;
const MIDDLE = { x: 134, y: 95 };
/** Pixels from the middle to the rim of what is drawn. */
const REACH = 66;
const LINE = 15;
const MOST_LISTED = 8;

/** SVG text: no script, no font, no address. */
export function drawTarget(target: Target): string {
  const scale = REACH / farthest(target);
  const parts = [
    `<rect width="${WIDTH}" height="${HEIGHT}" rx="6" fill="${PAPER}"/>`,
    ...rings(target, scale),
    ...sides(target.frame),
    ...target.marks.map((mark, k) => uncertainty(mark, k, scale, target.stale)),
    ...target.marks.map((mark, k) => sign(at(mark, scale), k, letterOf(target.marks, k), target.stale)),
    ...legend(target),
  ];
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${HEIGHT}" viewBox="0 0 ${WIDTH} ${HEIGHT}" font-family="sans-serif" font-size="11"><title>${escaped(`Tape on ${target.station}`)}</title>${parts.join('')}</svg>`;
}

/** mm from the middle: the limit has room around it, and marks beside the hole are drawn too, as far as a tape reaches. */
function farthest({ aperture, limit, marks }: Target): number {
  const beyond = marks.map(({ right, up, u }) => Math.hypot(right, up) * 1.1 + 2 * u);
  return Math.min(Math.max(limit === undefined ? aperture / 2 : 2 * limit, ...beyond), aperture * 2.5);
}

function rings({ aperture, limit }: Target, scale: number): string[] {
  const circle = (radius: number, style: string) => `<circle cx="${MIDDLE.x}" cy="${MIDDLE.y}" r="${pixels(radius * scale)}" ${style}/>`;
  const cross = 5;
  return [
    `<circle cx="${MIDDLE.x}" cy="${MIDDLE.y}" r="${REACH}" fill="#ffffff"/>`,
    ...((aperture / 2) * scale <= REACH + 1 ? [circle(aperture / 2, `fill="none" stroke="${INK}" stroke-width="1.5"`)] : []),
    ...(limit === undefined ? [] : [circle(limit, `fill="#e9f1ea" stroke="${INK}" stroke-width="1" stroke-dasharray="4 3"`)]),
    `<path d="M${MIDDLE.x - cross} ${MIDDLE.y}h${2 * cross}M${MIDDLE.x} ${MIDDLE.y - cross}v${2 * cross}" stroke="${PALE}"/>`,
  ];
}

/** Both names of a side where they differ: the viewer's, and below it the machine's. */
function sides({ runs, right, up }: Target['frame']): string[] {
  const only = isVertical(runs);
  const text = (x: number, y: number, anchor: string, viewer: string, machine: string) => {
    const first = only || viewer === machine ? machine : viewer;
    const second = only || viewer === machine ? '' : `<tspan x="${x}" dy="12" font-size="9">machine ${machine}</tspan>`;
    return `<text x="${x}" y="${y}" text-anchor="${anchor}" fill="${INK}">${first}${second}</text>`;
  };
  return [
    text(MIDDLE.x, 14, 'middle', 'up', up),
    text(MIDDLE.x, HEIGHT - 10, 'middle', 'down', opposite(up)),
    text(MIDDLE.x + REACH + 3, MIDDLE.y, 'start', 'right', right),
    text(MIDDLE.x - REACH - 3, MIDDLE.y, 'end', 'left', opposite(right)),
  ];
}

interface Spot { readonly x: number; readonly y: number }

/** Up on the tape is up on the paper. A mark beyond what is drawn stands at the rim. */
function at({ right, up }: Pick<TargetMark, 'right' | 'up'>, scale: number): Spot {
  const distance = Math.hypot(right, up) * scale;
  const shrink = distance > REACH ? REACH / distance : 1;
  return { x: MIDDLE.x + right * scale * shrink, y: MIDDLE.y - up * scale * shrink };
}

/** Twice the standard uncertainty. */
function uncertainty(mark: TargetMark, k: number, scale: number, stale: boolean): string {
  const { x, y } = at(mark, scale);
  return `<circle cx="${pixels(x)}" cy="${pixels(y)}" r="${pixels(2 * mark.u * scale)}" fill="${colour(k, stale)}" fill-opacity="0.16"/>`;
}

function sign({ x, y }: Spot, k: number, letter: string, stale: boolean): string {
  const r = 7;
  const shapes = [
    `<circle cx="${pixels(x)}" cy="${pixels(y)}" r="${r}"`,
    `<rect x="${pixels(x - r)}" y="${pixels(y - r)}" width="${2 * r}" height="${2 * r}"`,
    `<path d="M${pixels(x)} ${pixels(y - 9)}l9 15h-18z"`,
    `<path d="M${pixels(x)} ${pixels(y - 9)}l9 9l-9 9l-9 -9z"`,
  ];
  const shape = `${shapes[k % shapes.length]} fill="${colour(k, stale)}" stroke="#ffffff"/>`;
  return `${shape}<text x="${pixels(x)}" y="${pixels(y + 3.5)}" text-anchor="middle" font-size="10" font-weight="bold" fill="#ffffff">${letter}</text>`;
}

function colour(k: number, stale: boolean): string {
  return stale ? PALE : OKABE_ITO[k % OKABE_ITO.length]!;
}

/** The place's first letter; a number where two places begin alike. */
function letterOf(marks: readonly TargetMark[], k: number): string {
  const first = (mark: TargetMark) => mark.place.slice(0, 1).toUpperCase();
  const own = first(marks[k]!);
  return own !== '' && marks.every((mark, i) => i === k || first(mark) !== own) ? escaped(own) : String(k + 1);
}

function legend({ station, marks, limit, aperture, stale }: Target): string[] {
  const x = 282;
  const line = (k: number, text: string, weight = '') => `<text x="${x}" y="${20 + k * LINE}" fill="${INK}"${weight}>${escaped(text)}</text>`;
  const listed = marks.slice(0, MOST_LISTED).map(({ place }, k) => {
    const y = 20 + (k + 1) * LINE;
    return `<g transform="translate(${x + 6} ${y - 4}) scale(0.75)">${sign({ x: 0, y: 0 }, k, letterOf(marks, k), stale)}</g>${`<text x="${x + 17}" y="${y}" fill="${INK}" font-size="9">${escaped(short(place === '' ? 'here' : place))}</text>`}`;
  });
  const after = Math.min(marks.length, MOST_LISTED) + 2;
  return [
    line(0, short(station), ' font-weight="bold"'),
    ...listed,
    line(after, `hole ⌀ ${rounded(aperture)} mm`, ' font-size="9"'),
    ...(limit === undefined ? [] : [line(after + 1, `limit ${rounded(limit)} mm`, ' font-size="9"')]),
    ...(stale ? [line(after + 2, 'stale', ' font-size="9"')] : []),
  ];
}

function short(text: string): string {
  return text.length > 17 ? `${text.slice(0, 16)}…` : text;
}

function rounded(value: number): string {
  return String(Math.round(value * 100) / 100);
}

function pixels(value: number): string {
  return String(Math.round(value * 10) / 10);
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}
