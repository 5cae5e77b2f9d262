/** Failures while a file is written: afterwards it is complete, old or new, and no temporary file is left. */
import { spawn, spawnSync, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { chmodSync, chownSync, existsSync, mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { pdfOf } from '../../src/cli/picture.ts';
import { builtInto } from '../cli/built.ts';
import { folder } from '../cli/terminal.ts';
import { LONGEST, runs } from '../support/amount.ts';
import { LIMITS, MACHINE } from '../support/log.ts';

const place = folder();
const program = join(place.path, 'program', 'alignbook.cjs');
const EXAMPLE = place.file('w.alignbook.yaml', readFileSync('examples/1-full-service.alignbook.yaml'));
const isRoot = process.getuid?.() === 0;
const isPosix = process.platform !== 'win32';
const OLD = 'the old record\n';

beforeAll(() => builtInto(join(place.path, 'program')), 60_000);
afterAll(() => place.remove());

let [here, count] = ['', 0];
beforeEach(() => {
  here = join(place.path, String(++count));
  mkdirSync(here);
});

/** The written file, its command line, and its first bytes. */
const WRITTEN = [
  ['r.html', ['report', EXAMPLE], '<!doctype html>'],
  ['r.md', ['report', EXAMPLE, '--markdown'], '# Record of alignment'],
  ['r.pdf', ['report', EXAMPLE, '--pdf'], '%PDF-'],
  ['t.svg', ['draw', EXAMPLE, '--path'], '<svg '],
  ['t.png', ['draw', EXAMPLE, '--path'], '\x89PNG'],
] as const;

/** A substitute browser that writes the same kind of file at once. */
const good = place.file(
  'good-browser',
  `#!/bin/sh
for word; do case $word in
  --print-to-pdf=*) { printf '%%PDF-1.4\\n'; yes | head -c 200000; printf '%%%%EOF\\n'; } > "\${word#*=}" ;;
  --screenshot=*) { printf '\\211PNG\\r\\n'; yes | head -c 200000; printf 'IEND1234'; } > "\${word#*=}" ;;
esac; done
`,
);
chmodSync(good, 0o755);

/** Of a new workbook. */
const ANSWERS = [
  '--name=heron',
  '--tube=rear-left',
  '--units=mm',
  '--travel=900 x 600',
  '--screws=2',
  '--locks=none',
  '--nozzle=none',
  '--plumb=none',
];

interface Limits {
  readonly user?: number;
  readonly blocks?: number;
  readonly browser?: string;
}

/** @param blocks maximum size of a file, in blocks of 1024 bytes */
function ran(words: readonly string[], { user, blocks, browser = good }: Limits = {}) {
  // Changes the user only at run time: that user need not be able to read the folder of Node.
  const start =
    user === undefined
      ? [program]
      : [
          '-e',
          `process.setgroups([]); process.setgid(${user}); process.setuid(${user}); require(process.argv[1])`,
          program,
        ];
  const command = [process.execPath, ...start, ...words];
  const [file, ...rest] =
    blocks === undefined ? command : ['bash', '-c', `ulimit -f ${blocks}; exec "$@"`, 'bash', ...command];
  const { status, stdout, stderr } = spawnSync(file!, rest, {
    encoding: 'utf8',
    env: { ...process.env, CHROMIUM: browser },
  });
  return { status, stdout, stderr };
}

/** The file names and contents of a folder with one file in it. */
function left(where = here): Record<string, string> {
  return Object.fromEntries(readdirSync(where).map((name) => [name, readFileSync(join(where, name), 'latin1')]));
}

describe.skipIf(!isPosix)('a file size limit (a shell with `ulimit`)', () => {
  test.each(WRITTEN)('%s', (name, words) => {
    const out = join(here, name);
    const whole = ran([...words, '--out', out]);
    expect(whole).toEqual({ status: 0, stdout: '', stderr: '' });
    const blocks = Math.floor(readFileSync(out).length / 1024 / 2);
    writeFileSync(out, OLD);
    const message = /^alignbook: .*(larger than a file may be|made no).*\n$/;
    expect(ran([...words, '--out', out], { blocks })).toMatchObject({
      status: 2,
      stdout: '',
      stderr: expect.stringMatching(message),
    });
    expect(left()).toEqual({ [name]: OLD });
  });
});

describe('a full disk', () => {
  const disk = join(place.path, 'disk');
  const mount = () => spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=40k', 'tmpfs', disk]).status === 0;
  const unmount = () => spawnSync('umount', [disk]).status === 0;
  const canMount = (mkdirSync(disk), isRoot && process.platform === 'linux' && mount() && unmount());
  beforeAll(() => void (canMount && mount()));
  afterAll(() => void (canMount && unmount()));

  test.skipIf(!canMount).each(WRITTEN)('%s (skipped where no small file system can be mounted)', (name, words) => {
    const out = join(disk, name);
    for (const old of readdirSync(disk)) rmSync(join(disk, old));
    writeFileSync(out, OLD);
    // A picture smaller than the disk needs a disk that is already partly full.
    writeFileSync(join(disk, 'other'), Buffer.alloc(32_768));
    expect(ran([...words, '--out', out])).toEqual({
      status: 2,
      stdout: '',
      stderr: `alignbook: ${out} cannot be written: the disk is full.\n`,
    });
    rmSync(join(disk, 'other'));
    expect(left(disk)).toEqual({ [name]: OLD });
  });

  test.skipIf(!canMount)('a workbook that is added to, or created', () => {
    for (const old of readdirSync(disk)) rmSync(join(disk, old));
    const [file, another] = [join(disk, 'w.alignbook.yaml'), join(disk, 'new.alignbook.yaml')];
    // A second copy of it does not fit.
    const text = `${'# once\n'.repeat(2000)}${[MACHINE, LIMITS].join('---\n')}`;
    writeFileSync(file, text);
    writeFileSync(join(disk, 'other'), Buffer.alloc(16_384));
    expect(ran(['add', file, '--mark', '1=c'])).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('the disk is full.'),
    });
    writeFileSync(join(disk, 'more'), Buffer.alloc(8_192));
    expect(ran(['new', another, ...ANSWERS])).toMatchObject({
      status: 2,
      stderr: `alignbook: ${another} cannot be written: the disk is full.\n`,
    });
    expect(readdirSync(disk).sort()).toEqual(['more', 'other', 'w.alignbook.yaml']);
    expect(readFileSync(file, 'utf8')).toBe(text);
  });

  test.skipIf(process.platform !== 'linux')('standard output', () => {
    for (const words of [
      ['report', EXAMPLE],
      ['check', 'examples/mistakes.alignbook.yaml'],
      ['next', EXAMPLE],
    ]) {
      const { status, stderr } = spawnSync(
        'sh',
        ['-c', '"$@" > /dev/full', 'sh', process.execPath, program, ...words],
        { encoding: 'utf8' },
      );
      expect({ status, stderr }).toEqual({
        status: 2,
        stderr: 'alignbook: Standard output cannot be written (ENOSPC).\n',
      });
    }
  });
});

describe.skipIf(!isRoot)('a file of another user (skipped unless root, which can change the user)', () => {
  const otherUser = 65534;
  const [READ_ONLY_FILE, READ_ONLY_FOLDER] = [
    [0o444, 0o777],
    [0o666, 0o555],
  ];

  test.each([
    ['a file that is read-only', READ_ONLY_FILE],
    ['a folder that is read-only', READ_ONLY_FOLDER],
  ] as const)('%s', (_, [file, own]) => {
    chmodSync(place.path, 0o755);
    for (const [name, words] of WRITTEN) {
      const out = join(here, name);
      writeFileSync(out, OLD);
      chmodSync(out, file!);
      chmodSync(here, own!);
      expect(ran([...words, '--out', out], { user: otherUser })).toEqual({
        status: 2,
        stdout: '',
        stderr: `alignbook: ${out} cannot be written: permission is denied.\n`,
      });
      expect(left()).toEqual({ [name]: OLD });
      rmSync(out);
    }
  });

  test('a file of a group stays the group’s, with its permissions', () => {
    const out = join(here, 'r.html');
    writeFileSync(out, OLD);
    chownSync(out, otherUser, 12_345);
    chmodSync(out, 0o664);
    expect(ran(['report', EXAMPLE, '--out', out]).status).toBe(0);
    const { stdout } = spawnSync('stat', ['-c', '%u %g %a', out], { encoding: 'utf8' });
    expect(stdout).toBe(`${otherUser} 12345 664\n`);
  });
});

describe.skipIf(!isPosix)('a browser that', () => {
  /** The script of the browser, given the name of its output file. */
  const FAILS: Readonly<Record<string, readonly [does: string, message: RegExp]>> = {
    'ends with an exit code': ['exit 3', /it ended with exit code 3\./],
    'makes all of it, and then ends with an exit code': [`"${good}" "$@"; exit 1`, /it ended with exit code 1\./],
    'is killed': ['kill -9 $$', /it ended with a signal\./],
    'makes nothing and says that all is well': ['exit 0', /no whole (PDF|PNG)/],
    'makes an empty file': [': > "$file"', /no whole (PDF|PNG)/],
    'makes half a file': [
      `"${good}" "$@"; head -c 100000 "$file" > "$file.half"; mv "$file.half" "$file"`,
      /no whole (PDF|PNG)/,
    ],
    'makes something else': ['echo "<html>" > "$file"', /no whole (PDF|PNG)/],
  };
  const browser = (does: string) => {
    const path = place.file(
      `browser-${count}`,
      `#!/bin/sh\nfor word; do case $word in --print-to-pdf=*|--screenshot=*) file="\${word#*=}" ;; esac; done\n${does}\n`,
    );
    chmodSync(path, 0o755);
    return path;
  };

  test.each(Object.keys(FAILS))('%s', (name) => {
    const [does, message] = FAILS[name]!;
    for (const [file, words] of WRITTEN.filter(([file]) => /pdf|png/.test(file))) {
      const out = join(here, file);
      writeFileSync(out, OLD);
      expect(ran([...words, '--out', out], { browser: browser(does) })).toEqual({
        status: 2,
        stdout: '',
        stderr: expect.stringMatching(message),
      });
      expect(left()).toEqual({ [file]: OLD });
      rmSync(out);
    }
  });

  test('does not return is stopped, even if it ignores the signal to end', () => {
    process.env['CHROMIUM'] = browser('trap "" TERM INT HUP; while :; do sleep 0.05; done');
    expect(pdfOf('<p>', 500)).toEqual({ problem: expect.stringContaining('made no PDF within 0.5 s') });
  });

  test('is still running when the program is killed', async () => {
    const out = join(here, 'r.pdf');
    writeFileSync(out, OLD);
    const started = join(place.path, 'started');
    const CHROMIUM = browser(`echo $$ > "${started}.part"; mv "${started}.part" "${started}"; exec sleep 60`);
    const env = { ...process.env, TMPDIR: place.path, CHROMIUM };
    const child = spawn(process.execPath, [program, 'report', EXAMPLE, '--pdf', '--out', out], {
      stdio: 'ignore',
      env,
    });
    while (!existsSync(started)) await setTimeout(5);
    await killed(child);
    process.kill(Number(readFileSync(started, 'utf8')), 'SIGKILL');
    expect(left()).toEqual({ 'r.pdf': OLD });
  });
});

async function killed(child: ChildProcess): Promise<void> {
  child.kill('SIGKILL');
  if (child.exitCode === null && child.signalCode === null) await once(child, 'exit');
}

describe('a process that is killed', () => {
  test(
    'while it writes',
    async () => {
      const [file, size, tries] = [join(here, 'r.html'), 4_000_000, Math.max(8, runs(40))];
      let during = 0;
      for (let k = 0; k < tries; k++) {
        const child = spawn(process.execPath, ['test/cli/rewriting.ts', file, String(size)], {
          stdio: ['ignore', 'pipe', 'inherit'],
        });
        await once(child.stdout, 'data');
        await setTimeout(Math.random() * 40);
        await killed(child);
        const content = readFileSync(file);
        expect(content.length).toBe(size);
        expect(content.equals(Buffer.alloc(size, content[0]))).toBe(true);
        const beside = readdirSync(here).filter((name) => name !== 'r.html');
        // Temporary files of a killed process are removed by the next process that writes there.
        expect(beside.length).toBeLessThanOrEqual(1);
        during += beside.length;
      }
      expect(during).toBeGreaterThan(0);
      expect(ran(['report', EXAMPLE, '--out', join(here, 'other.html')]).status).toBe(0);
      expect(readdirSync(here).sort()).toEqual(['other.html', 'r.html']);
      console.log(`${tries} processes killed, ${during} of them in the middle of a write`);
    },
    LONGEST,
  );

  test(
    'at any moment of a whole run',
    async () => {
      const [out, tries, start] = [join(here, 'r.html'), Math.max(8, runs(20)), performance.now()];
      const whole = ran(['report', EXAMPLE]).stdout;
      const duration = performance.now() - start;
      let written = 0;
      for (let k = 0; k < tries; k++) {
        writeFileSync(out, OLD);
        const child = spawn(process.execPath, [program, 'report', EXAMPLE, '--out', out], { stdio: 'ignore' });
        await setTimeout(Math.random() * 1.2 * duration);
        await killed(child);
        const content = readFileSync(out, 'utf8');
        expect([OLD, whole]).toContain(content);
        if (content === whole) written++;
      }
      console.log(`${tries} runs killed, ${written} of them after the file was written`);
    },
    LONGEST,
  );
});
