/**
 * Findings as they are shown: without those that the user silenced, each with a reason, and in the order of the file.
 * `# alignbook: allow CODE: reason` silences CODE on its own line and the next; a limits cell may turn a code off for
 * the whole workbook, but not an error: then something was not read, and that must not be forgotten.
 */
import { findings } from '../../shared/findings.ts';
import { nearest, severity, type Finding, type FindingCode, type Span } from '../model/index.ts';
import { lineIndex, type LineIndex } from '../cells/index.ts';
import type { Workbook } from './pass.ts';

interface Allowance {
  readonly code: FindingCode;
  readonly cell: number;
  readonly span: Span;
  /** 0-based, in the file. */
  readonly line: number;
}

/** `more` are the findings of later layers: they are silenced by the same comments. */
export function settle(workbook: Workbook, more: readonly Finding[]): Finding[] {
  const lineOf = lines(workbook);
  const { allowances, unreadable } = allowancesIn(workbook, lineOf);
  const used = new Set<Allowance>();
  const at = new Map(allowances.map((allowance) => [`${allowance.code} ${allowance.line}`, allowance]));
  const off = workbook.limits?.limits.rules ?? {};
  const kept = [...workbook.findings, ...more].filter((finding) => {
    const silencing = at.size === 0 ? undefined : silencer(at, finding.code, lineOf(finding));
    if (silencing !== undefined) used.add(silencing);
    return silencing === undefined && (severity(finding) === 'error' || !Object.hasOwn(off, finding.code));
  });
  const unused = allowances.filter((allowance) => !used.has(allowance)).map(({ code, cell, span }): Finding => ({
    code: 'allow.unused', cell, span, facts: { code }, fix: { span, text: '' },
  }));
  const offset = (finding: Finding) => (workbook.split.cells[finding.cell]?.start ?? 0) + finding.span.start;
  return [...kept, ...unused, ...unreadable].sort((a, b) => offset(a) - offset(b));
}

/** On the finding's own line, or the one above it. */
function silencer(at: ReadonlyMap<string, Allowance>, code: FindingCode, line: number): Allowance | undefined {
  return at.get(`${code} ${line}`) ?? at.get(`${code} ${line - 1}`);
}

type LineOf = (finding: Pick<Finding, 'cell' | 'span'>) => number;

/** 0-based lines in the file; a cell's lines are found once. */
function lines({ split }: Workbook): LineOf {
  const indexes = new Map<number, LineIndex>();
  return ({ cell, span }) => {
    const { text, line } = split.cells[cell] ?? { text: split.head, line: 0 };
    let index = indexes.get(cell);
    if (index === undefined) indexes.set(cell, (index = lineIndex(text)));
    return line + index.positionAt(span.start).line;
  };
}

function allowancesIn({ remarks }: Workbook, lineOf: LineOf): { allowances: Allowance[]; unreadable: Finding[] } {
  const allowances = new Map<string, Allowance>();
  const unreadable = new Map<string, Finding>();
  for (const { cell, span, said } of remarks) {
    const place = `${cell} ${span.start}`;
    const code = /^allow\s+([\w.]+)\s*:\s*\S/.exec(said)?.[1];
    if (code !== undefined && Object.hasOwn(findings, code)) {
      allowances.set(place, { code: code as FindingCode, cell, span, line: lineOf({ cell, span }) });
    } else unreadable.set(place, misread(said, cell, span));
  }
  return { allowances: [...allowances.values()], unreadable: [...unreadable.values()] };
}

function misread(said: string, cell: number, span: Span): Finding {
  const code = /^allow\s+([\w.]+)/.exec(said)?.[1];
  const known = code !== undefined && Object.hasOwn(findings, code);
  const reason = code === undefined ? '`allow` and a finding’s code are missing' : known ? 'the reason is missing' : `there is no finding \`${code}\``;
  const suggestion = code === undefined || known ? undefined : nearest(code, Object.keys(findings));
  return { code: 'allow.unreadable', cell, span, facts: { text: said, reason }, ...(suggestion !== undefined && { suggestion }) };
}
