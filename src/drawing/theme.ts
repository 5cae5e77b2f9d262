/**
 * Colours of every figure, as CSS properties that a page may set. In the editor they follow its theme; a standalone
 * picture contains one of the themes below.
 *
 * Places use the palette of Okabe and Ito, Color Universal Design (2008), which is distinguishable with any common
 * colour vision; shape and letter identify a place too.
 */

/** The themes of standalone pictures. */
export type ThemeName = 'light' | 'dark' | 'contrast';

/**
 * `paper` is the background, `ground` that of the tape, `allowed` inside the limit and always the lighter; `ink` is for
 * essential and `pale` for secondary parts; `line` for grids, `rule` for edges, `metal` for hatching. `within`,
 * `border`, `outside` and `stop` belong to the verdict alone, and `outside` to clipped light. `s0` … `s4` fill the signs
 * of places, `l0` … `l4` draw their lines, `t0` … `t4` are the letters on them; `in` and `out` are turns.
 */
export type Theme = Readonly<Record<Derived | Shots | 'in' | 'out', string>>;

type Derived =
  | 'paper'
  | 'ink'
  | 'pale'
  | 'ground'
  | 'allowed'
  | 'line'
  | 'rule'
  | 'metal'
  | 'within'
  | 'border'
  | 'outside'
  | 'stop';
type Shots = `${'s' | 'l' | 't'}${0 | 1 | 2 | 3 | 4}`;

/** Fills and lines of places, and turns, on a light and on a dark ground: the lines have more contrast than the fills. */
const ON_LIGHT = coloursOf(
  ['#0072B2', '#E69F00', '#009E73', '#CC79A7', '#D55E00'],
  ['#0072B2', '#A86A00', '#00795A', '#A8508A', '#B84F00'],
);
const ON_DARK = coloursOf(
  ['#56B4E9', '#E69F00', '#2FC79C', '#E29BC7', '#FF8A4C'],
  ['#56B4E9', '#E69F00', '#2FC79C', '#E29BC7', '#FF8A4C'],
);

function coloursOf(fills: readonly string[], lines: readonly string[]) {
  const named = (letter: 's' | 'l' | 't', of: (k: number) => string) =>
    fills.map((_, k) => [`${letter}${k}`, of(k)] as const);
  return {
    ...(Object.fromEntries([
      ...named('s', (k) => fills[k]!),
      ...named('l', (k) => lines[k]!),
      ...named('t', (k) => letterColour(fills[k]!)),
    ]) as Readonly<Record<Shots, string>>),
    in: lines[0]!,
    out: lines[1]!,
  };
}

/** The colours of each theme. */
export const THEMES: Readonly<Record<ThemeName, Theme>> = {
  light: {
    paper: '#ffffff',
    ink: '#3b3b3b',
    pale: '#6c6c6c',
    ground: '#efefee',
    allowed: '#ffffff',
    line: '#e6e6e6',
    rule: '#c8c8c8',
    metal: '#d8d8d8',
    within: '#38702f',
    border: '#8c6a12',
    outside: '#a1260d',
    stop: '#a1260d',
    ...ON_LIGHT,
  },
  dark: {
    paper: '#1f1f1f',
    ink: '#cccccc',
    pale: '#a1a1a1',
    ground: '#262626',
    allowed: '#363636',
    line: '#353535',
    rule: '#4f4f4f',
    metal: '#424242',
    within: '#9ccb9c',
    border: '#ccb84e',
    outside: '#ea7a76',
    stop: '#ea7a76',
    ...ON_DARK,
  },
  contrast: {
    paper: '#000000',
    ink: '#ffffff',
    pale: '#dbdbdb',
    ground: '#000000',
    allowed: '#000000',
    line: '#575757',
    rule: '#ffffff',
    metal: '#6fc3df',
    within: '#aee3a8',
    border: '#e5d678',
    outside: '#f5a6a0',
    stop: '#f5a6a0',
    ...ON_DARK,
  },
};

const INK = 'var(--vscode-editor-foreground,#3b3b3b)';
const PAPER = 'var(--vscode-editor-background,#ffffff)';

function mixed(colour: string, percent: number, other: string): string {
  return `color-mix(in srgb,${colour} ${percent}%,${other})`;
}

/** A colour of the editor's charts has too little contrast for text: it is mixed with that of text. */
function verdictColour(variable: string, fallback: string): string {
  return mixed(`var(--vscode-${variable},${fallback})`, 65, INK);
}

/** From the editor's theme, with defaults. */
const EDITOR: Readonly<Record<Derived, string>> = {
  paper: PAPER,
  ink: INK,
  pale: mixed(INK, 75, PAPER),
  ground: mixed(INK, 4, PAPER),
  allowed: mixed(INK, 13, PAPER),
  line: mixed(INK, 13, PAPER),
  rule: mixed(INK, 28, PAPER),
  metal: mixed(INK, 20, PAPER),
  within: verdictColour('charts-green', '#388a34'),
  border: verdictColour('charts-yellow', '#bf8803'),
  outside: verdictColour('charts-red', '#e51400'),
  stop: verdictColour('errorForeground', '#a1260d'),
};

/** What differs from `EDITOR` in a light and in a contrast theme. */
const LIGHT = { ground: '#efefee', allowed: '#fff' };
const CONTRAST = {
  pale: mixed(INK, 86, PAPER),
  ground: PAPER,
  allowed: PAPER,
  line: mixed(INK, 34, PAPER),
  rule: 'var(--vscode-contrastBorder,#6fc3df)',
  metal: 'var(--vscode-contrastBorder,#6fc3df)',
};

/** The editor names its theme by a class of the page. A light contrast theme has both classes of contrast themes. */
const EDITOR_RULES: readonly (readonly [theme: string, colours: Readonly<Record<string, string>>])[] = [
  ['', { ...EDITOR, ...ON_DARK }],
  ['.vscode-light ', { ...LIGHT, ...ON_LIGHT }],
  ['.vscode-high-contrast ', CONTRAST],
  ['.vscode-high-contrast-light ', { ...CONTRAST, ...ON_LIGHT }],
];

/** The style sheet of a page that shows figures in the editor. An element of class `colours` has them, too. */
export function editorStyle(): string {
  const rules = EDITOR_RULES.map(([theme, colours]) => rule(colours, `${theme}.figure,${theme}.colours`));
  return `${rules.join('\n')}\n${STYLE}`;
}

/** The style sheet inside a standalone picture. */
export function standaloneStyle(name: ThemeName): string {
  return `${rule(THEMES[name])}\n${STYLE}`;
}

function rule(colours: Readonly<Record<string, string>>, selector = '.figure'): string {
  return `${selector}{${Object.entries(colours)
    .map(([key, value]) => `--${key}:${value}`)
    .join(';')}}`;
}

const STYLE = [
  '.figure{font-family:var(--vscode-font-family,system-ui,"DejaVu Sans",sans-serif);font-size:12px;font-variant-numeric:tabular-nums}',
  '.figure text{fill:var(--ink)}',
  '.figure .small{font-size:11px}',
  '.figure .pale{fill:var(--pale)}',
  '.figure .name{font-weight:600}',
  '.figure .letter{font-size:10px;font-weight:700}',
  '.figure .reading{font-size:13px}',
  '.figure .line{fill:none;stroke:var(--line)}',
  '.figure .ink{fill:none;stroke:var(--ink)}',
  '.figure .rule{fill:none;stroke:var(--rule)}',
  '.figure .halo{paint-order:stroke;stroke:var(--ground);stroke-width:3;stroke-linejoin:round}',
].join('\n');

/** The colour of a letter on such a colour: black or white, whichever has more contrast. */
function letterColour(colour: string): '#000000' | '#ffffff' {
  const [r, g, b] = [1, 3, 5].map((at) => (Number.parseInt(colour.slice(at, at + 2), 16) / 255) ** 2.2);
  // Contrast with white and with black is equal at a luminance of 0.179 (WCAG 2, relative luminance).
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b! > 0.179 ? '#000000' : '#ffffff';
}
