/** Findings as SARIF 2.1.0 (OASIS standard), which forges and editors show. */
import type { Log, ReportingDescriptor, Result } from 'sarif';
import { findings as table } from '../../shared/findings.ts';
import type { PlacedFinding } from './findings.ts';

export interface FileFindings {
  readonly file: string;
  readonly findings: readonly PlacedFinding[];
}

const LEVEL = { error: 'error', warning: 'warning', information: 'note', hint: 'note' } as const;

/** One document for all files, with the rules whose findings it has. */
export function sarif(files: readonly FileFindings[], version: string): string {
  const codes = [...new Set(files.flatMap(({ findings }) => findings.map(({ code }) => code)))].sort();
  const log: Log = {
    version: '2.1.0',
    $schema: 'https://json.schemastore.org/sarif-2.1.0.json',
    runs: [
      {
        tool: { driver: { name: 'Alignbook', version, rules: codes.map(ruleOf) } },
        columnKind: 'utf16CodeUnits',
        results: files.flatMap(({ file, findings }) =>
          findings.map((finding) => resultOf(file, finding, codes.indexOf(finding.code))),
        ),
      },
    ],
  };
  return JSON.stringify(log, undefined, 2);
}

function ruleOf(code: string): ReportingDescriptor {
  const { severity, message, help } = table[code as keyof typeof table];
  return {
    id: code,
    shortDescription: { text: message },
    help: { text: help },
    defaultConfiguration: { level: LEVEL[severity] },
  };
}

function resultOf(
  file: string,
  { code, severity, message, range: { start, end } }: PlacedFinding,
  rule: number,
): Result {
  return {
    ruleId: code,
    ruleIndex: rule,
    level: LEVEL[severity],
    message: { text: message },
    locations: [
      {
        physicalLocation: {
          artifactLocation: { uri: encodeURI(file.replaceAll('\\', '/')).replace(/[?#]/g, encodeURIComponent) },
          region: {
            startLine: start.line + 1,
            startColumn: start.character + 1,
            endLine: end.line + 1,
            endColumn: end.character + 1,
          },
        },
      },
    ],
  };
}
