// Packs the extension as it is installed: everything is bundled, so no package comes with it.
import { createVSIX } from '@vscode/vsce';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
await createVSIX({ cwd: root, packagePath: `${root}dist/alignbook.vsix`, dependencies: false, allowMissingRepository: true, rewriteRelativeLinks: false });
