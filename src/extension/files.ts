/** Files for a server that has no disk: the editor has one, wherever that is. */
import { FileSystemError, RelativePattern, Uri, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  READ_REQUEST,
  WORKBOOKS_REQUEST,
  type FileAnswer,
  type FileParams,
  type FolderParams,
} from '../../shared/messages.ts';

/** More are nobody's workshop. */
const MOST = 2000;
/** Bytes of a workbook. */
const LARGEST = 64_000_000;

export function lendFiles(client: BaseLanguageClient): void {
  client.onRequest(READ_REQUEST, ({ uri }: FileParams) => read(Uri.parse(uri)));
  client.onRequest(WORKBOOKS_REQUEST, async ({ folder }: FolderParams) => {
    const found = await workspace.findFiles(
      new RelativePattern(Uri.parse(folder), '**/*.alignbook.yaml'),
      '**/node_modules/**',
      MOST,
    );
    return found.map((uri) => uri.toString()).sort();
  });
}

async function read(uri: Uri): Promise<FileAnswer> {
  try {
    const { size } = await workspace.fs.stat(uri);
    if (size > LARGEST) return { reason: 'it is larger than 64 MB' };
    return {
      text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(await workspace.fs.readFile(uri)),
    };
  } catch (problem) {
    return { reason: whyNot(problem) };
  }
}

function whyNot(problem: unknown): string {
  if (problem instanceof TypeError) return 'it is not UTF-8 text';
  if (!(problem instanceof FileSystemError)) return String(problem);
  return REASONS[problem.code] ?? problem.code;
}

/** In the words of the server that has a disk. */
const REASONS: Readonly<Record<string, string>> = {
  FileNotFound: 'there is no such file',
  NoPermissions: 'permission denied',
  FileIsADirectory: 'it is a folder',
};
