/** The command line as it was typed → what is asked for, or what is wrong with it. */
import { parseArgs } from 'node:util';

export type Command = 'check' | 'next' | 'light' | 'schema';

export type Asked =
  | { readonly command: Command; readonly files: readonly string[]; readonly json: boolean }
  | { readonly command: 'help' | 'version' }
  | { readonly command: 'wrong'; readonly reason: string };

export const USAGE = `alignbook COMMAND FILE…

  check FILE…    what is wrong in the workbooks, as FILE:LINE:COL severity code message
  next FILE…     what the marks mean, what to do now, and why
  light FILE…    how wide the beam is on its way, what is lost, the spot, eyewear
  schema         the JSON Schema of the format, for other editors
  server --stdio the language server, for any editor that speaks the Language Server Protocol

  --json         one line of JSON per file
  --help, --version

- as FILE reads standard input. Exit of check: 0 no errors, 1 errors, 2 bad usage
or an unreadable file. Exit of next and light: 0 when every file
could be read, else 2.
`;

const TAKES_FILES = new Set<string>(['check', 'next', 'light']);

export function readArguments(typed: readonly string[]): Asked {
  try {
    const { values, positionals } = parseArgs({
      args: [...typed],
      allowPositionals: true,
      options: { json: { type: 'boolean', default: false }, help: { type: 'boolean', short: 'h' }, version: { type: 'boolean' } },
    });
    if (values.help) return { command: 'help' };
    if (values.version) return { command: 'version' };
    return asked(positionals, values.json);
  } catch (problem) {
    return { command: 'wrong', reason: problem instanceof Error ? problem.message : String(problem) };
  }
}

function asked([command, ...files]: readonly string[], json: boolean): Asked {
  if (command === undefined) return { command: 'wrong', reason: 'No command.' };
  if (command === 'schema') return files.length === 0 ? { command, files, json } : { command: 'wrong', reason: '`schema` takes no files.' };
  if (!TAKES_FILES.has(command)) return { command: 'wrong', reason: `There is no command \`${command}\`.` };
  if (files.length === 0) return { command: 'wrong', reason: `\`${command}\` needs a workbook, or - for standard input.` };
  return { command: command as 'check' | 'next' | 'light', files, json };
}
