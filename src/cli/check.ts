/** Lists the findings in workbooks, as text or for other programs, and decides the exit code. */
import { STANDARD_INPUT } from '../disk/index.ts';
import { harmless } from '../model/index.ts';
import { STANDARD_OUTPUT, type CheckOptions, type Failure } from './arguments.ts';
import { each } from './each.ts';
import type { Evaluated } from './evaluated.ts';
import type { Files } from './files.ts';
import { findingLine, type PlacedFinding } from './findings.ts';
import { githubLine } from './github.ts';
import { checkJson } from './json.ts';
import { sarif, type FileFindings } from './sarif.ts';
import type { Exit, Terminal } from './terminal.ts';

interface Access {
  readonly version: string;
  evaluated(file: string, isJudged: boolean, name?: string): Evaluated;
  files(): Pick<Files, 'changesSince'>;
}

export function check(options: CheckOptions, terminal: Terminal, { version, evaluated, files }: Access): Exit {
  const { as, changedSince, stdinName } = options;
  const isChanged = changedSince === undefined ? undefined : files().changesSince(changedSince);
  const listed: FileFindings[] = [];
  const read = (file: string) => evaluated(file, true, file === STANDARD_INPUT ? stdinName : undefined);
  const exit = each(options.files, { terminal, read }, ({ file, result }) => {
    const { findings, evaluation, inputs } = result;
    const change = isChanged && changeOf(inputs, isChanged);
    if (change && 'problem' in change) {
      terminal.error(`alignbook: ${harmless(change.problem)}\n`);
      return 2;
    }
    if (change && !change.isChanged) return 0;
    const name = file === STANDARD_OUTPUT ? (stdinName ?? file) : file;
    if (as === 'sarif') listed.push({ file: name, findings });
    else terminal.out(linesOf(as, name, findings));
    if (!evaluation) return 2;
    return findings.some((finding) => isFailing(finding, options.failOn)) ? 1 : 0;
  });
  if (as === 'sarif') terminal.out(`${sarif(listed, version)}\n`);
  return exit;
}

/** Whether the workbook, or a file that it takes a machine from, has changed; a file that cannot be read counts as changed. */
function changeOf(
  inputs: readonly string[],
  isChanged: ReturnType<Files['changesSince']>,
): { readonly isChanged: boolean } | { readonly problem: string } {
  for (const input of inputs) {
    const change = input === STANDARD_INPUT ? true : isChanged(input);
    if (typeof change !== 'boolean') return change;
    if (change) return { isChanged: true };
  }
  return { isChanged: inputs.length === 0 };
}

function linesOf(as: Exclude<CheckOptions['as'], 'sarif'>, file: string, findings: readonly PlacedFinding[]): string {
  if (as === 'json') return `${checkJson(file, findings)}\n`;
  const line = as === 'github' ? githubLine : findingLine;
  return findings.map((finding) => `${line(file, finding)}\n`).join('');
}

/** Released while a station was not shown to be within, something loose, or a part unfit. */
const RELEASED_OUTSIDE: ReadonlySet<string> = new Set([
  'release.outside',
  'release.stale',
  'release.corners',
  'release.locked',
  'release.removed',
  'release.loose',
  'release.unfit',
  'release.measured',
]);

function isFailing({ code, severity }: PlacedFinding, failOn: readonly Failure[]): boolean {
  return (
    severity === 'error' ||
    (severity === 'warning' && failOn.includes('warnings')) ||
    (RELEASED_OUTSIDE.has(code) && failOn.includes('released-outside'))
  );
}
