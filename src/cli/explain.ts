/** Prints what a finding means, how grave it is, an example, and what to do. */
import { findings, type FindingCode } from '../../shared/findings.ts';
import { harmless, nearest } from '../model/index.ts';
import { textWidth, type Exit, type Terminal } from './terminal.ts';
import { wrapped } from './wrap.ts';

const GRAVITY = {
  error: 'An error: the cell, or the value, cannot be used.',
  warning: 'A warning: it is used, but it is probably not what was meant.',
  information: 'For information.',
  hint: 'A hint about style.',
} as const;

/** @param page the text of `shared/findings.md`, which has an example of each; undefined if it cannot be read */
export function explain(code: string, page: string | undefined, terminal: Terminal): Exit {
  const { out, error, paint } = terminal;
  if (!isCode(code)) {
    error(`alignbook: There is no finding \`${harmless(code)}\`.${suggestion(code)}\n`);
    return 2;
  }
  const { severity, message, help } = findings[code];
  const example = page === undefined ? [] : exampleIn(page, code);
  const intended =
    severity === 'error'
      ? `# alignbook: allow ${code}: the reason`
      : `# alignbook: allow ${code}: the reason — or, for the whole workbook, in the limits cell: rules: {${code}: {off: the reason}}`;
  const parts = [
    ['means', message.replace(/\{\w+\}/g, '…').replace(/([.?]) ?…$/, '$1')],
    ['gravity', GRAVITY[severity]],
    ['do', help],
    ...example,
    ['intended', `Write on the line above: ${intended}`],
  ];
  const lines = parts.flatMap(([label = '', text = '']) => wrapped(text, `  ${label}`.padEnd(12), textWidth(terminal)));
  out(`${paint('bold', code)}\n${lines.join('\n')}\n`);
  return 0;
}

function isCode(code: string): code is FindingCode {
  return Object.hasOwn(findings, code);
}

/** At most three names: the nearest, then those with the same first or second word. */
function suggestion(code: string): string {
  const codes = Object.keys(findings);
  const near = nearest(code, codes);
  const [area = '', rest = area] = code.toLowerCase().split('.');
  const related = codes.filter((one) => {
    const [own = '', what = ''] = one.toLowerCase().split('.');
    return area !== '' && (own === area || what === area || what === rest);
  });
  const names = [...new Set([...(near === undefined ? [] : [near]), ...related])].slice(0, 3);
  return names.length === 0
    ? ' `check` prints the codes of what it finds.'
    : ` Did you mean ${names.map((name) => `\`${name}\``).join(' or ')}?`;
}

/** The text in which it is found, and the message there. */
function exampleIn(page: string, code: FindingCode): string[][] {
  const [section = ''] = page.split(`\n## ${code}\n`).slice(1);
  const [, of, message] = /\nFor example, of `([^]*?)`:\n\n> (.*)\n/.exec(section.split('\n## ', 1)[0]!) ?? [];
  return of === undefined || message === undefined
    ? []
    : [
        ['example', of],
        ['', message],
      ];
}
