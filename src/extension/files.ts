/** Reads files for a server without a disk, through the editor's file system. */
import { FileSystemError, RelativePattern, Uri, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { FileRequests } from '../model/index.ts';

/** Limit of the search. */
const MOST = 2000;
/** Largest workbook in bytes. */
const LARGEST = 64_000_000;

export function provideFiles(client: BaseLanguageClient): void {
  const answer = <Name extends keyof FileRequests>(
    name: Name,
    work: (params: FileRequests[Name]['params']) => Promise<FileRequests[Name]['answer']>,
  ) => client.onRequest(name, work);
  answer('alignbook/read', ({ uri }) => read(Uri.parse(uri)));
  answer('alignbook/workbooks', async ({ folder }) => {
    const uris = await workspace.findFiles(
      new RelativePattern(Uri.parse(folder), '**/*.alignbook.yaml'),
      '**/node_modules/**',
      MOST,
    );
    return uris.map((uri) => uri.toString()).sort();
  });
}

async function read(uri: Uri): Promise<FileRequests['alignbook/read']['answer']> {
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

/** The same sentences as the server with a disk uses. */
const REASONS: Readonly<Record<string, string>> = {
  FileNotFound: 'there is no such file',
  NoPermissions: 'permission denied',
  FileIsADirectory: 'it is a folder',
};
