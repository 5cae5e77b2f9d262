/** The user's settings, as declared in package.json. */
import { workspace, type Uri } from 'vscode';
import type { Reading } from '../create/index.ts';
import type { RecordParams } from '../model/index.ts';

function setting(name: string, scope?: Uri): unknown {
  return workspace.getConfiguration('alignbook', scope).get(name);
}

/** The view in which the list of machines opens a workbook. */
export function prefersNotebook(workbook: Uri): boolean {
  return setting('openAs', workbook) === 'notebook';
}

/** Who logs; empty if the user gave no name. */
export function nameSetting(): string {
  const name = setting('by');
  return typeof name === 'string' ? name.trim() : '';
}

/** How tapes are read, for new workbooks. What is no length is left out: the settings page marks it. */
export function readingSetting(): Reading {
  return { resolution: length('newWorkbook.resolution'), placing: length('newWorkbook.placing') };
}

/** The same as in package.json. */
const LENGTH = /^\d+(\.\d+)? (mm|in)$/;

function length(name: string): string | undefined {
  const written = setting(name);
  return typeof written === 'string' && LENGTH.test(written.trim()) ? written.trim() : undefined;
}

/** Of the record; undefined: chosen when it is printed. */
export function paperSetting(): RecordParams['paper'] {
  const paper = setting('record.paper');
  return paper === 'A4' || paper === 'letter' ? paper : undefined;
}
