// The licences of the packages in the bundles: whoever gets a copy of the code gets its terms with it.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const LINE = '='.repeat(80);
const HEAD =
  'The program and the extension contain code of the packages below, each under the terms that stand with it.';
const TERMS = /^(licen[cs]e|copying)/i;
const NOTICE = /^(notice|thirdpartynotices)/i;

/**
 * Terms that a package does not bring as a file, and where they are from. The version is in the name: a new one may
 * have other terms, so that somebody has to look.
 */
const recorded = ({ name, version }) => new URL(`licences/${name}@${version}.txt`, import.meta.url);

/**
 * @param {string} root the folder that the inputs are relative to
 * @param {readonly string[]} inputs paths in esbuild's metafiles
 * @returns {string} every text once, below the packages that it belongs to
 * @throws where a package has no terms
 */
export function licences(root, inputs) {
  const folders = new Set(inputs.flatMap((input) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(input)?.[0] ?? []));
  /** The packages by the text that they share. */
  const packages = new Map();
  for (const folder of [...folders].sort()) {
    const { name, version } = JSON.parse(readFileSync(join(root, folder, 'package.json'), 'utf8'));
    for (const text of textsOf(join(root, folder), { name, version }))
      packages.set(text, [...(packages.get(text) ?? []), `${name} ${version}`]);
  }
  return [`${HEAD}\n`, ...[...packages].map(([text, names]) => `${names.join('\n')}\n\n${text}\n`)].join(`${LINE}\n`);
}

function textsOf(folder, of) {
  const files = readdirSync(folder).sort();
  const terms = files.filter((file) => TERMS.test(file)).map((file) => join(folder, file));
  if (terms.length === 0 && existsSync(recorded(of))) terms.push(recorded(of));
  if (terms.length === 0)
    throw new Error(
      `${of.name} ${of.version} brings no licence file: write its terms and where they are from into .ci/licences/NAME@VERSION.txt`,
    );
  return [...terms, ...files.filter((file) => NOTICE.test(file)).map((file) => join(folder, file))].map(normalized);
}

function normalized(file) {
  return readFileSync(file, 'utf8')
    .replaceAll('\r\n', '\n')
    .replace(/^\n+|\s+$/g, '');
}
