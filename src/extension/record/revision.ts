/** The version-control state of a file, from the editor's git extension. */
import type { extensions as Extensions, Uri } from 'vscode';
import type { RecordParams } from '../../model/index.ts';

/** The part of the git extension's interface that is used here. */
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

/** Undefined without a repository, a commit, or the git extension. */
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
    // The git extension is disabled or has another interface: the record then has no revision.
    return undefined;
  }
}
