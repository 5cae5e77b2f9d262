/** Goes through the workbooks that the command line names. */
import { isFolder, STANDARD_INPUT, workbooksIn } from '../disk/index.ts';
import { harmless } from '../model/index.ts';
import type { Evaluated } from './evaluated.ts';
import type { Exit, Terminal } from './terminal.ts';

/** One workbook of several. */
export interface Shown {
  readonly file: string;
  readonly result: Evaluated;
  readonly isFirst: boolean;
}

/** How workbooks are read. */
export interface Reading {
  readonly terminal: Terminal;
  read(file: string): Evaluated;
}

/**
 * File by file; a folder stands for the workbooks in it. Standard input is read once, however often it is named.
 *
 * @returns the highest exit code
 */
export function each(named: readonly string[], { terminal, read }: Reading, show: (shown: Shown) => Exit): Exit {
  let input: Evaluated | undefined;
  let isFirst = true;
  let most: Exit = 0;
  const showFile = (file: string) => {
    const result = file === STANDARD_INPUT ? (input ??= read(file)) : read(file);
    most = Math.max(most, show({ file, result, isFirst })) as Exit;
    isFirst = false;
  };
  for (const name of named) {
    const files = isFolder(name) ? workbooksIn(name) : [name];
    for (const file of files) showFile(file);
    if (files.length > 0) continue;
    terminal.error(`alignbook: There is no workbook in ${harmless(name)}.\n`);
    most = 2;
  }
  return most;
}
