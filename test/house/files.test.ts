/** Small promises about the repository as a whole. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ROOT } from './layers.ts';

const tracked = execFileSync('git', ['ls-files'], { cwd: ROOT, encoding: 'utf8' }).split('\n').filter(Boolean);

test('the lock files name no download addresses', () => {
  const locks = tracked.filter((file) => file.endsWith('package-lock.json'));
  expect(locks.length).toBeGreaterThan(0);
  for (const lock of locks) expect(readFileSync(join(ROOT, lock), 'utf8')).not.toContain('"resolved"');
});

test('tests run on the Node that is locked, where there is one for this machine', () => {
  const { packages } = JSON.parse(readFileSync(join(ROOT, 'package-lock.json'), 'utf8')) as {
    packages: Record<string, Locked>;
  };
  const locked = Object.values(packages).filter(
    ({ bin, os, cpu }) => bin?.node !== undefined && os?.includes(process.platform) && cpu?.includes(process.arch),
  );
  for (const { version } of locked) expect(process.version).toBe(`v${version}`);
});

interface Locked {
  readonly version: string;
  readonly bin?: Readonly<Record<string, string>>;
  readonly os?: string | readonly string[];
  readonly cpu?: string | readonly string[];
}

test('.editorconfig gives other editors what the formatter does', () => {
  const { formatter } = JSON.parse(readFileSync(join(ROOT, 'biome.json'), 'utf8')) as { formatter: Formatter };
  const text = readFileSync(join(ROOT, '.editorconfig'), 'utf8');
  const value = (key: string) => new RegExp(`^${key} = (.*)$`, 'm').exec(text)?.[1];
  expect([value('indent_style'), value('indent_size'), value('max_line_length')]).toEqual([
    formatter.indentStyle,
    String(formatter.indentWidth),
    String(formatter.lineWidth),
  ]);
});

interface Formatter {
  readonly indentStyle: string;
  readonly indentWidth: number;
  readonly lineWidth: number;
}

test('no source file holds more than one thing: none is over 450 lines', () => {
  const sources = tracked.filter((file) => /^(src|shared)\/.*\.tsx?$/.test(file));
  expect(sources.length).toBeGreaterThan(20);
  expect(sources.filter((file) => readFileSync(join(ROOT, file), 'utf8').split('\n').length > 450)).toEqual([]);
});

test('code, tests and examples read nothing outside the repository', () => {
  const text = tracked.filter(
    (file) =>
      /\.(tsx?|mjs|json|yaml)$/.test(file) && file !== 'package-lock.json' && file !== 'test/house/files.test.ts',
  );
  expect(
    text.filter((file) => /['"`](\.\.\/)+shared\/(design|references)/.test(readFileSync(join(ROOT, file), 'utf8'))),
  ).toEqual([]);
});
