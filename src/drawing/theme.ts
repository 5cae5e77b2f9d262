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
 * `paper` is the background, `ground` that of the tape, `ink` for essential and `pale` for secondary parts, `allowed`
 * inside the limit, `lost` for clipped light.
 */
export interface Theme {
  readonly paper: string;
  readonly ground: string;
  readonly ink: string;
  readonly pale: string;
  readonly line: string;
  readonly allowed: string;
  readonly lost: string;
}

/** The colours of each theme. */
export const THEMES: Readonly<Record<ThemeName, Theme>> = {
  light: {
    paper: '#fbf8f1',
    ground: '#ffffff',
    ink: '#1b2a33',
    pale: '#66757d',
    line: '#dfe4e6',
    allowed: '#e6f0e9',
    lost: '#b3261e',
  },
  dark: {
    paper: '#1d2428',
    ground: '#141a1d',
    ink: '#e4e9eb',
    pale: '#9aa8af',
    line: '#303b41',
    allowed: '#20352a',
    lost: '#ff8a80',
  },
  contrast: {
    paper: '#000000',
    ground: '#000000',
    ink: '#ffffff',
    pale: '#d0d0d0',
    line: '#4a4a4a',
    allowed: '#000000',
    lost: '#ffd500',
  },
};

/** From the editor's theme, with defaults. */
const EDITOR: Readonly<Record<keyof Theme, string>> = {
  paper: 'var(--vscode-editor-background, #fbf8f1)',
  ground: 'var(--vscode-editorWidget-background, #ffffff)',
  ink: 'var(--vscode-editor-foreground, #1b2a33)',
  pale: 'var(--vscode-descriptionForeground, #66757d)',
  line: 'color-mix(in srgb, var(--vscode-editor-foreground, #1b2a33) 16%, transparent)',
  allowed: 'color-mix(in srgb, var(--vscode-charts-green, #388a34) 16%, transparent)',
  lost: 'var(--vscode-errorForeground, #b3261e)',
};

/** The style sheet of a page that shows figures in the editor. */
export function editorStyle(): string {
  return `${rule(EDITOR)}\n${STYLE}`;
}

/** The style sheet inside a standalone picture. */
export function standaloneStyle(name: ThemeName): string {
  return `${rule(THEMES[name])}\n${STYLE}`;
}

function rule(theme: Readonly<Record<keyof Theme, string>>): string {
  return `.figure{${Object.entries(theme)
    .map(([key, value]) => `--${key}:${value}`)
    .join(';')}}`;
}

const STYLE = [
  '.figure{font-family:system-ui,"DejaVu Sans",sans-serif;font-size:12px}',
  '.figure text{fill:var(--ink)}',
  '.figure .small{font-size:11px}',
  '.figure .pale{fill:var(--pale)}',
  '.figure .name{font-weight:600}',
  '.figure .letter{font-size:10px;font-weight:700}',
  '.figure .line{fill:none;stroke:var(--line)}',
  '.figure .ink{fill:none;stroke:var(--ink)}',
].join('\n');

export const OKABE_ITO = ['#0072B2', '#E69F00', '#009E73', '#CC79A7', '#56B4E9', '#D55E00'] as const;

/** The colour of a letter on such a colour: black or white, whichever has more contrast. */
export function letterColour(colour: string): '#000000' | '#ffffff' {
  const [r, g, b] = [1, 3, 5].map((at) => (Number.parseInt(colour.slice(at, at + 2), 16) / 255) ** 2.2);
  // Contrast with white and with black is equal at a luminance of 0.179 (WCAG 2, relative luminance).
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b! > 0.179 ? '#000000' : '#ffffff';
}
