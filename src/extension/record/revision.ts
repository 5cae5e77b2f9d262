/** What version control holds of a file, by the editor's own knowledge of it. */
import type { extensions as Extensions, Uri } from 'vscode';
import type { RecordParams } from '../../../shared/messages.ts';

/** Of the editor's git extension, what is used here. */
interface GitApi {
  getRepository(uri: Uri): Repository | null;
}

interface Repository {
  readonly state: {
    readonly HEAD?: { readonly commit?: string };
    readonly workingTreeChanges: readonly Change[];
    readonly indexChanges: readonly Change[];
    readonly untrackedChanges?: readonly Change[];
  };
  status?(): Promise<void>;
}

interface Change {
  readonly uri: Uri;
}

/** Nothing where there is no repository, no commit, or nobody to ask. */
export async function revisionOf(
  file: Uri,
  { getExtension }: Pick<typeof Extensions, 'getExtension'>,
): Promise<RecordParams['revision']> {
  try {
    const git = getExtension<{ getAPI(version: 1): GitApi }>('vscode.git');
    const repository = git && (await git.activate()).getAPI(1).getRepository(file);
    await repository?.status?.();
    const commit = repository?.state.HEAD?.commit;
    if (!repository || commit === undefined) return undefined;
    const { workingTreeChanges, indexChanges, untrackedChanges = [] } = repository.state;
    return {
      commit,
      isChanged: [...workingTreeChanges, ...indexChanges, ...untrackedChanges].some(
        ({ uri }) => uri.toString() === file.toString(),
      ),
    };
  } catch {
    // Switched off, or not of the kind that is known here: the record then says nothing of it.
    return undefined;
  }
}
