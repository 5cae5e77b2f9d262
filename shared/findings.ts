/**
 * Every finding: its stable code, severity, lifetime, message with `{facts}`, and help. One table, so that the command
 * line, the editor and the documents say the same. Its two halves are the layers that report a finding.
 *
 * Severity: `error` the cell, or the value, cannot be used; `warning` it is used, but a sign, a unit or a reading is
 * probably not what was meant; `information` for information; `hint` style.
 */
import { formatFindings } from './format-findings.ts';
import { logFindings } from './log-findings.ts';

export const findings = { ...formatFindings, ...logFindings };

export type FindingCode = keyof typeof findings;
