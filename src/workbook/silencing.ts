/**
 * The findings to show: without those that the user silenced with a reason, in the order of the file. `# alignbook:
 * allow CODE: reason` silences CODE on its own line and the next. A limits cell can turn a code off for the whole
 * workbook, but not an error, which means that something was not read.
 */
import { findings } from '../../shared/findings.ts';
import { judgedUntil, nearest, severity, visitsIn, type Finding, type FindingCode, type Span } from '../model/index.ts';
import { firstAt, lineIndex, type LineIndex } from '../cells/index.ts';
import type { Workbook } from './pass.ts';
import { withWaiting } from './waiting.ts';

/** A silenced code, the reason, and the findings that it hides. */
export interface Silencing {
  readonly code: string;
  readonly reason: string;
  /** The place of the comment; absent if it is turned off for the whole workbook. */
  readonly at?: { readonly cell: number; readonly span: Span };
  readonly silenced: readonly Finding[];
}

interface Allowance {
  readonly code: FindingCode;
  readonly reason: string;
  readonly cell: number;
  readonly span: Span;
  /** 0-based, in the file. */
  readonly line: number;
}

/** @param more the findings of later layers, silenced by the same comments */
export function visibleFindings(workbook: Workbook, more: readonly Finding[]): Finding[] {
  const { shown, byComment, unreadable } = judged(workbook, more);
  const unused = [...byComment]
    .filter(([{ code }, silenced]) => silenced.length === 0 && findings[code].lifetime === 'lasting')
    .map(
      ([{ code, cell, span }]): Finding => ({
        code: 'allow.unused',
        cell,
        span,
        facts: { code },
        fix: { span, text: '' },
      }),
    );
  return inOrder(workbook, [...shown, ...unused, ...unreadable]);
}

/** What the limits cells silence, then the comments in file order; those that silence nothing are included. */
export function silencings(workbook: Workbook, more: readonly Finding[]): Silencing[] {
  const { byComment, byRule } = judged(workbook, more);
  return [
    ...byRule.map(({ code, reason, silenced }) => ({ code, reason, silenced: inOrder(workbook, silenced) })),
    ...[...byComment].map(([{ code, reason, cell, span }, silenced]) => ({
      code,
      reason,
      at: { cell, span },
      silenced: inOrder(workbook, silenced),
    })),
  ];
}

interface Judged {
  readonly shown: readonly Finding[];
  readonly byComment: ReadonlyMap<Allowance, Finding[]>;
  readonly byRule: readonly RuleOff[];
  readonly unreadable: readonly Finding[];
}

function judged(workbook: Workbook, more: readonly Finding[]): Judged {
  const lineOf = lines(workbook);
  const { allowances, unreadable } = allowancesIn(workbook, lineOf);
  const byComment = new Map(allowances.map((allowance): [Allowance, Finding[]] => [allowance, []]));
  const rules = rulesOff(workbook);
  const at = new Map(allowances.map((allowance) => [`${allowance.code} ${allowance.line}`, allowance]));
  const shown = withWaiting([...workbook.findings, ...more], workbook.entries).filter((finding) => {
    const comment = at.size === 0 ? undefined : silencer(at, finding.code, lineOf(finding));
    const silenced = comment
      ? byComment.get(comment)
      : severity(finding) === 'error'
        ? undefined
        : rules.at(finding)?.silenced;
    silenced?.push(finding);
    return silenced === undefined;
  });
  return {
    shown,
    byComment,
    byRule: rules.all().filter(({ isLast, silenced }) => isLast || silenced.length > 0),
    unreadable,
  };
}

/** A code that a limits cell turns off, and the findings that it hides. */
interface RuleOff {
  readonly code: string;
  readonly reason: string;
  /** By the last limits cell of the file. */
  readonly isLast: boolean;
  readonly silenced: Finding[];
}

/** A visit is judged by the limits in force at its end, whatever a later cell contains. */
function rulesOff({ entries }: Workbook): { at(finding: Finding): RuleOff | undefined; all(): RuleOff[] } {
  const limits = entries.flatMap(({ entry }, index) => (entry.kind === 'limits' ? [{ index, entry }] : []));
  const rules = limits.map(({ index, entry }, k) => ({
    index,
    off: new Map(
      Object.entries(entry.limits.rules).map(([code, { off }]): [string, RuleOff] => [
        code,
        { code, reason: off, isLast: k === limits.length - 1, silenced: [] },
      ]),
    ),
  }));
  const all = () => rules.flatMap(({ off }) => [...off.values()]);
  const visits = all().length === 0 ? [] : visitsIn(entries);
  // An empty cell is no entry: it is judged with the one above it.
  const until = ({ cell }: Finding) => judgedUntil(visits, Math.max(0, firstAt(entries, cell + 1) - 1), entries.length);
  return { all, at: (finding) => rules.findLast(({ index }) => index < until(finding))?.off.get(finding.code) };
}

function inOrder(workbook: Workbook, of: readonly Finding[]): Finding[] {
  const offset = ({ cell, span }: Finding) => (workbook.split.cells[cell]?.start ?? 0) + span.start;
  return of.toSorted((a, b) => offset(a) - offset(b));
}

/** On the finding's own line, or the one above it. */
function silencer(at: ReadonlyMap<string, Allowance>, code: FindingCode, line: number): Allowance | undefined {
  return at.get(`${code} ${line}`) ?? at.get(`${code} ${line - 1}`);
}

type LineOf = (finding: Pick<Finding, 'cell' | 'span'>) => number;

/** 0-based lines in the file; each cell is indexed once. */
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
  for (const { cell, span, instruction } of remarks) {
    const place = `${cell} ${span.start}`;
    const [, code, reason] = /^allow\s+([\w.]+)\s*:\s*(\S.*)$/.exec(instruction) ?? [];
    if (code !== undefined && reason !== undefined && Object.hasOwn(findings, code)) {
      allowances.set(place, { code: code as FindingCode, reason, cell, span, line: lineOf({ cell, span }) });
    } else unreadable.set(place, misread(instruction, cell, span));
  }
  return { allowances: [...allowances.values()], unreadable: [...unreadable.values()] };
}

function misread(instruction: string, cell: number, span: Span): Finding {
  const code = /^allow\s+([\w.]+)/.exec(instruction)?.[1];
  const known = code !== undefined && Object.hasOwn(findings, code);
  const reason =
    code === undefined
      ? '`allow` and a finding’s code are missing'
      : known
        ? 'the reason is missing'
        : `there is no finding \`${code}\``;
  const suggestion = code === undefined || known ? undefined : nearest(code, Object.keys(findings));
  return {
    code: 'allow.unreadable',
    cell,
    span,
    facts: { text: instruction, reason },
    ...(suggestion !== undefined && { suggestion }),
  };
}
