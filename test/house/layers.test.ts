/** The house: text → cells → entries → evaluation → what is shown, and no way back. */
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { folderOf, imports, layers, ROOT } from './layers.ts';

const table = layers();
const result = imports();

test('every folder of the code has a row in the table, and every row a folder', () => {
  const folders = readdirSync(join(ROOT, 'src'), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => `src/${name}`);
  expect(table.map(({ folder }) => folder).sort()).toEqual([...folders, 'shared'].sort());
});

test('the scan sees the imports that are known to be there', () => {
  expect(result).toContainEqual({ from: 'src/evaluation/index.ts', to: 'src/evaluation/evaluate.ts' });
  expect(result.length).toBeGreaterThan(100);
  console.log(
    `${result.length} imports of ${new Set(result.map(({ from }) => from)).size} files compared with the table`,
  );
});

describe.each(table)('$folder', ({ folder, mayImport, packages }) => {
  const own = result.filter(({ from }) => folderOf(from) === folder);
  const isFile = (to: string) => /^(src|shared)\//.test(to);

  test('imports only the folders that the table allows', () => {
    const wrong = own.filter(({ to }) => isFile(to) && folderOf(to) !== folder && !mayImport.includes(folderOf(to)));
    expect(wrong).toEqual([]);
  });

  test('reaches into no folder past its index', () => {
    const deep = own.filter(
      ({ to }) =>
        isFile(to) && folderOf(to) !== folder && folderOf(to) !== 'shared' && !/^src\/\w+\/index\.ts$/.test(to),
    );
    expect(deep).toEqual([]);
  });

  test('imports only the packages that the table allows', () => {
    const wrong = own.filter(
      ({ to }) =>
        !isFile(to) &&
        !packages.some(
          (name) => to === name || to.startsWith(`${name}/`) || (name === 'node' && to.startsWith('node:')),
        ),
    );
    expect(wrong).toEqual([]);
  });
});

test.each(table)('the folders of $folder import each other in one direction', ({ folder }) => {
  const within = (file: string) => (folderOf(file) === folder ? file.split('/').slice(2, -1).join('/') : '');
  const arrows = result.map(({ from, to }) => [within(from), within(to)] as const);
  const left = new Set(arrows.flat().filter((name) => name !== ''));
  const isFree = (name: string) => !arrows.some(([from, to]) => from === name && to !== name && left.has(to));
  for (let free = [...left].filter(isFree); free.length > 0; free = [...left].filter(isFree))
    for (const name of free) left.delete(name);
  expect([...left]).toEqual([]);
});

/** The dependencies of the protocol's client; none reads a workbook. */
const CLIENT = [
  'vscode-languageclient',
  'vscode-languageserver-protocol',
  'vscode-languageserver-types',
  'vscode-jsonrpc',
  'semver',
  'minimatch',
  'brace-expansion',
  'balanced-match',
];

/** The dependencies of the figures, including those of the scales. */
const FIGURES = [
  'preact',
  'preact-render-to-string',
  'd3-array',
  'd3-color',
  'd3-format',
  'd3-interpolate',
  'd3-time',
  'd3-time-format',
  'internmap',
];

/** What ships, and the packages that may be in it. */
const BUNDLES = {
  // Including the dependencies of mathjs.
  'meta.json': [
    'yaml',
    'zod',
    'mathjs',
    '@babel',
    'decimal.js',
    'typed-function',
    'fraction.js',
    'complex.js',
    'escape-latex',
    'javascript-natural-sort',
    'seedrandom',
    'tiny-emitter',
    'vscode-languageserver',
    'vscode-languageserver-protocol',
    'vscode-languageserver-types',
    'vscode-languageserver-textdocument',
    'vscode-jsonrpc',
    ...FIGURES,
  ],
  'preview.meta.json': FIGURES.filter((name) => name !== 'preact-render-to-string'),
  'renderer.meta.json': FIGURES.filter((name) => name !== 'preact-render-to-string'),
  'extension.meta.json': CLIENT,
  'extension.web.meta.json': CLIENT,
};

interface Metafile {
  readonly inputs: Readonly<
    Record<string, { readonly imports: readonly { readonly path: string; readonly external?: boolean }[] }>
  >;
  readonly outputs: Readonly<
    Record<string, { readonly inputs: Readonly<Record<string, { readonly bytesInOutput: number }>> }>
  >;
}

test.each(Object.entries(BUNDLES))(
  'the bundle of %s holds the folders that may meet and the packages named here, nothing else',
  (file, allowed) => {
    const meta = join(ROOT, 'dist', file);
    expect(existsSync(meta), 'run `npm run bundle` first').toBe(true);
    const { inputs, outputs } = JSON.parse(readFileSync(meta, 'utf8')) as Metafile;
    // What is imported and not used leaves nothing behind.
    const bundled = Object.values(outputs).flatMap((output) =>
      Object.entries(output.inputs)
        .filter(([, { bytesInOutput }]) => bytesInOutput > 0)
        .map(([path]) => path),
    );
    const packages = new Set(
      bundled.filter((path) => path.startsWith('node_modules/')).map((path) => path.split('/')[1]!),
    );
    expect([...packages].filter((name) => !allowed.includes(name))).toEqual([]);
    const arrows = Object.entries(inputs).flatMap(([from, { imports: to }]) =>
      to.map(({ path }) => [folderOf(from), folderOf(path)] as const),
    );
    const wrong = arrows.filter(
      ([from, to]) =>
        /^(src\/|shared$)/.test(from) &&
        /^(src\/|shared$)/.test(to) &&
        from !== to &&
        !table.find(({ folder }) => folder === from)!.mayImport.includes(to),
    );
    expect(wrong).toEqual([]);
    console.log(`${Object.keys(inputs).length} bundled files, ${arrows.length} imports between them`);
  },
);

test.each(['panel', 'notebook'])('what is loaded into a page stays small: %s', (name) => {
  const size = statSync(join(ROOT, 'dist', 'preview', `${name}.js`)).size;
  console.log(`${name}: ${size} bytes`);
  expect(size).toBeLessThanOrEqual(120_000);
});
