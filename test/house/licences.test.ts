/** Who gets a bundle gets the licences of what is in it. */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { ROOT } from './layers.ts';

const dist = join(ROOT, 'dist');
const text = readFileSync(join(dist, 'THIRD-PARTY-LICENSES.txt'), 'utf8');
const sections = text
  .split(/\n=+\n/)
  .slice(1)
  .map((section) => {
    const [packages, ...paragraphs] = section.trim().split('\n\n') as [string, ...string[]];
    return { packages: packages.split('\n'), licence: paragraphs.join('\n\n') };
  });

/** By the bundles’ own account of what went into them. */
function bundled(): string[] {
  const metafiles = readdirSync(dist).filter((file) => file.endsWith('meta.json'));
  const inputs = metafiles.flatMap((file) =>
    Object.keys((JSON.parse(readFileSync(join(dist, file), 'utf8')) as { inputs: object }).inputs),
  );
  const folders = new Set(inputs.flatMap((input) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(input)?.[0] ?? []));
  return [...folders].map((folder) => {
    const { name, version } = JSON.parse(readFileSync(join(ROOT, folder, 'package.json'), 'utf8')) as {
      name: string;
      version: string;
    };
    return `${name} ${version}`;
  });
}

describe('THIRD-PARTY-LICENSES.txt beside the bundles', () => {
  test('names every package in them, and no other', () => {
    const named = new Set(sections.flatMap(({ packages }) => packages));
    expect([...named].sort()).toEqual(bundled().sort());
    console.log(`${named.size} packages, ${sections.length} texts, ${text.length} characters`);
  });

  test('gives each of them its terms, and every text once', () => {
    const terms = /permission is hereby granted|permission to use, copy, modify|licensed under the apache license/i;
    for (const name of bundled())
      expect(
        sections.some(({ packages, licence }) => packages.includes(name) && terms.test(licence)),
        name,
      ).toBe(true);
    expect(new Set(sections.map(({ licence }) => licence)).size).toBe(sections.length);
  });

  test('has the notice that the Apache License asks for, and where terms come from that a package does not bring itself', () => {
    const of = (name: string) =>
      sections
        .filter(({ packages }) => packages.some((one) => one.startsWith(`${name} `)))
        .map(({ licence }) => licence)
        .join('\n');
    expect(of('mathjs')).toContain(readFileSync(join(ROOT, 'node_modules', 'mathjs', 'NOTICE'), 'utf8').trim());
    expect(of('mathjs')).toContain('TERMS AND CONDITIONS FOR USE, REPRODUCTION, AND DISTRIBUTION');
    expect(of('seedrandom')).toMatch(/README\.md[^]*Copyright 2019 David Bau/);
    expect(of('javascript-natural-sort')).toMatch(/package\.json[^]*Jim Palmer/);
    const recorded = join(ROOT, '.ci', 'licences');
    for (const file of readdirSync(recorded)) expect(text, file).toContain(readFileSync(join(recorded, file), 'utf8'));
  });
});

describe('a package in a bundle', () => {
  const root = mkdtempSync(join(tmpdir(), 'alignbook-'));
  afterAll(() => rmSync(root, { recursive: true }));
  const folder = join(root, 'node_modules', 'outer', 'node_modules', '@of', 'some');
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'package.json'), JSON.stringify({ name: '@of/some', version: '1.2.3', license: 'MIT' }));
  const gathered = async () => {
    const { licences } = (await import(pathToFileURL(join(ROOT, '.ci', 'licences.mjs')).href)) as {
      licences(root: string, inputs: string[]): string;
    };
    return licences(root, ['src/own.ts', 'node_modules/outer/node_modules/@of/some/lib/index.js']);
  };

  test('without terms stops the build, which names it', async () => {
    writeFileSync(join(folder, 'NOTICE'), 'Made by Some.');
    await expect(gathered()).rejects.toThrow('@of/some 1.2.3');
  });

  test('with terms is listed, with its notice', async () => {
    writeFileSync(join(folder, 'LICENCE.md'), 'Use it.\r\n');
    expect(await gathered()).toMatch(
      /\n=+\n@of\/some 1\.2\.3\n\nUse it\.\n+=+\n@of\/some 1\.2\.3\n\nMade by Some\.\n$/,
    );
  });
});
