/**
 * The revision in a record, and that reading it runs nothing. A repository that came as an archive brings
 * its own configuration, and git runs many programs that a configuration names.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { LIMITS, MACHINE } from '../support/log.ts';
import { builtInto } from './built.ts';
import { folder, typed } from './terminal.ts';

const place = folder();
const program = join(place.path, 'program', 'alignbook.cjs');
afterAll(() => place.remove());
beforeAll(() => builtInto(join(place.path, 'program')), 60_000);

// What is set on this machine is no part of it.
Object.assign(process.env, {
  GIT_CONFIG_GLOBAL: place.file('gitconfig', '[user]\n\tname = t\n\temail = t@example.invalid\n'),
  GIT_CONFIG_NOSYSTEM: '1',
  GIT_TERMINAL_PROMPT: '0',
});
for (const editor of ['GIT_EDITOR', 'VISUAL', 'EDITOR']) delete process.env[editor];

const NAME = 'w.alignbook.yaml';
const TEXT = [MACHINE, LIMITS, 'session: a\n', 'marks: M1\nshots: centre\n'].join('---\n');
/** Every trap is one program: it leaves a file. */
const sprung = join(place.path, 'sprung');
const trap = place.file('trap', `#!/bin/sh\ntouch "${sprung}"\ncat 2> /dev/null < /dev/null\n`);
chmodSync(trap, 0o755);

const git = (where: string, ...words: string[]) =>
  execFileSync('git', ['-C', where, ...words], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] }).trim();

let count = 0;
/** With one commit of the workbook; gives the folder. */
function repository(): string {
  const where = join(place.path, `repository-${++count}`);
  mkdirSync(where);
  git(where, 'init', '-q', '-b', 'main');
  writeFileSync(join(where, NAME), TEXT);
  git(where, 'add', '.');
  git(where, 'commit', '-qm', 'one');
  return where;
}

const revision = (file: string) => /revision \| ([^|]*) \|/.exec(typed('report', file, '--markdown').out)?.[1];

describe('the revision of', () => {
  const CHANGED = ', with uncommitted changes';

  test('a workbook as it was committed, changed, and put back', () => {
    const where = repository();
    const [file, head] = [join(where, NAME), git(where, 'rev-parse', 'HEAD')];
    expect(revision(file)).toBe(head);
    writeFileSync(file, `${TEXT}---\nnote: more\n`);
    expect(revision(file)).toBe(`${head}${CHANGED}`);
    git(where, 'add', '.');
    expect(revision(file)).toBe(`${head}${CHANGED}`);
    writeFileSync(file, TEXT);
    expect(revision(file)).toBe(head);
  });

  test('an untracked workbook, in a folder of its own', () => {
    const where = repository();
    expect(revision(place.file(join(`repository-${count}`, 'deeper [x]', 'new.alignbook.yaml'), TEXT))).toBe(
      `${git(where, 'rev-parse', 'HEAD')}${CHANGED}`,
    );
  });

  test('a detached head, a worktree, a submodule', () => {
    const [where, outer] = [repository(), repository()];
    const first = git(where, 'rev-parse', 'HEAD');
    git(where, 'commit', '-q', '--allow-empty', '-m', 'two');
    git(where, 'worktree', 'add', '-q', join(where, 'beside'), first);
    git(outer, '-c', 'protocol.file.allow=always', 'submodule', '--quiet', 'add', where, 'inner');
    const second = git(where, 'rev-parse', 'HEAD');
    expect([where, join(where, 'beside'), join(outer, 'inner')].map((one) => revision(join(one, NAME)))).toEqual([
      second,
      first,
      second,
    ]);
    git(where, 'checkout', '-q', '--detach', first);
    expect(revision(join(where, NAME))).toBe(first);
  });

  test('objects in a pack, names of sha256', () => {
    const where = repository();
    git(where, 'gc', '-q');
    expect(revision(join(where, NAME))).toBe(git(where, 'rev-parse', 'HEAD'));
    const other = join(place.path, 'sha256');
    mkdirSync(other);
    git(other, 'init', '-q', '--object-format=sha256');
    writeFileSync(join(other, NAME), TEXT);
    git(other, 'add', '.');
    git(other, 'commit', '-qm', 'one');
    expect(revision(join(other, NAME))).toMatch(/^[0-9a-f]{64}$/);
  });

  test('no repository, no commit or no git: no revision is printed', () => {
    expect(revision(place.file(`none-${count}/${NAME}`, TEXT))).toBeUndefined();
    const where = join(place.path, 'empty');
    mkdirSync(where);
    git(where, 'init', '-q');
    writeFileSync(join(where, NAME), TEXT);
    expect(revision(join(where, NAME))).toBeUndefined();
    const file = join(repository(), NAME);
    const { PATH } = process.env;
    process.env['PATH'] = join(place.path, 'nowhere');
    expect(revision(file)).toBeUndefined();
    process.env['PATH'] = PATH;
  });
});

interface Trap {
  /** Of the repository, beside what it has. */
  readonly config?: string;
  /** Further files in its folder. */
  readonly files?: Readonly<Record<string, string>>;
  /** Whether HEAD's tree is missing, which a partial clone fetches when it is read. */
  readonly isPartial?: boolean;
  readonly prepare?: (where: string) => void;
  /**
   * The git command that runs the trap's program, which shows that it is a trap. Absent: only the commands of the
   * product would run it.
   */
  readonly springs?: readonly string[];
}

const PARTIAL = '[extensions]\n\tpartialClone = origin\n[remote "origin"]\n\tpromisor = true\n';
const SSH = `${PARTIAL}\turl = ssh://x@127.0.0.1/y\n[core]\n\tsshCommand = "'${trap}'; false"\n`;
const lazy = (config: string): Trap => ({ config, isPartial: true, springs: ['ls-tree', 'HEAD'] });
const HOOKS = [
  'reference-transaction',
  'post-checkout',
  'post-index-change',
  'pre-auto-gc',
  'pre-commit',
  'post-commit',
  'fsmonitor-watchman',
  'pre-push',
  'post-merge',
  'proc-receive',
];
const ATTRIBUTES = { '.gitattributes': '* filter=trap diff=trap merge=trap\n' };
const changed = (where: string) => writeFileSync(join(where, NAME), `${TEXT}# changed\n`);

const TRAPS: Readonly<Record<string, Trap>> = {
  'a fetch of what is missing, by ssh': lazy(SSH),
  'a fetch of what is missing, from a folder': lazy(`${PARTIAL}\turl = ${place.path}\n\tuploadpack = "'${trap}'"\n`),
  'a fetch of what is missing, by a program named in the address': lazy(
    `${PARTIAL}\turl = "ext::${trap}"\n[protocol "ext"]\n\tallow = always\n`,
  ),
  'a fetch of what is missing, through a proxy': lazy(
    `${PARTIAL}\turl = git://127.0.0.1/y\n[core]\n\tgitProxy = "${trap}"\n`,
  ),
  'a fetch of what is missing, from two places': lazy(
    `${SSH}[remote "other"]\n\tpromisor = true\n\turl = ${place.path}\n\tuploadpack = "'${trap}'"\n`,
  ),
  'a configuration that is included': {
    config: '[include]\n\tpath = ../more\n',
    files: { more: `[core]\n\tfsmonitor = "${trap}"\n` },
    springs: ['status'],
  },
  'a watcher of files': { config: `[core]\n\tfsmonitor = "${trap}"\n`, springs: ['status'] },
  hooks: {
    config: '[core]\n\thooksPath = hooks\n',
    files: Object.fromEntries(HOOKS.map((hook) => [`hooks/${hook}`, readFileSync(trap, 'utf8')])),
    springs: ['checkout', '-q', '-b', 'other'],
  },
  'filters of content': {
    config: `[filter "trap"]\n\tclean = "${trap}"\n\tsmudge = "${trap}"\n\trequired\n`,
    files: ATTRIBUTES,
    prepare: changed,
    springs: ['hash-object', NAME],
  },
  'a filter that stays': {
    config: `[filter "trap"]\n\tprocess = "${trap}"\n`,
    files: ATTRIBUTES,
    prepare: changed,
    springs: ['hash-object', NAME],
  },
  'a text of what is not text': {
    config: `[diff "trap"]\n\ttextconv = "${trap}"\n`,
    files: ATTRIBUTES,
    prepare: changed,
    springs: ['--no-pager', 'diff'],
  },
  'a comparison': {
    config: `[diff]\n\texternal = "${trap}"\n[diff "trap"]\n\tcommand = "${trap}"\n`,
    files: ATTRIBUTES,
    prepare: changed,
    springs: ['--no-pager', 'diff'],
  },
  'other commands by the same names': {
    config: `[alias]\n\tmine = "!${trap}"\n\trev-parse = "!${trap}"\n\tls-tree = "!${trap}"\n`,
    springs: ['mine'],
  },
  'a pager': { config: `[core]\n\tpager = "${trap}"\n[pager]\n\trev-parse = "${trap}"\n\tls-tree = "${trap}"\n` },
  'an editor': { config: `[core]\n\teditor = "${trap}"\n`, springs: ['commit', '--allow-empty'] },
  'a check of signatures': {
    config: `[gpg]\n\tprogram = "${trap}"\n[log]\n\tshowSignature = true\n`,
    prepare: signed,
    springs: ['verify-commit', 'HEAD'],
  },
  'who is asked for a password': {
    config: `[core]\n\taskPass = "${trap}"\n[credential]\n\thelper = "!${trap}"\n`,
    springs: ['credential', 'fill'],
  },
  'a working tree that is elsewhere': {
    config: `[core]\n\tworktree = /\n\tfsmonitor = "${trap}"\n`,
    springs: ['ls-files'],
  },
  'a repository that is elsewhere': {
    prepare: (where) => {
      renameSync(join(where, '.git'), `${where}.git`);
      writeFileSync(join(where, '.git'), `gitdir: ${where}.git\n`);
      git(where, 'config', 'core.fsmonitor', trap);
    },
    springs: ['status'],
  },
  'a folder that looks like a repository itself': {
    prepare: (where) => {
      const tree = git(where, 'rev-parse', 'HEAD^{tree}');
      for (const name of ['HEAD', 'objects', 'refs']) renameSync(join(where, '.git', name), join(where, name));
      rmSync(join(where, '.git'), { recursive: true });
      writeFileSync(join(where, 'config'), `[core]\n\trepositoryformatversion = 1\n\tbare\n${SSH}`);
      rmSync(objectOf(where, tree));
    },
    springs: ['ls-tree', 'HEAD'],
  },
};

/** A commit with a signature, whoever made it. */
function signed(where: string): void {
  const text = `${git(where, 'cat-file', 'commit', 'HEAD')}\n`.replace(
    '\n\n',
    '\ngpgsig -----BEGIN PGP SIGNATURE-----\n \n iQ==\n -----END PGP SIGNATURE-----\n\n',
  );
  git(
    where,
    'reset',
    '-q',
    '--soft',
    execFileSync('git', ['-C', where, 'hash-object', '-t', 'commit', '-w', '--stdin'], {
      input: text,
      encoding: 'utf8',
    }).trim(),
  );
}

function objectOf(repository: string, name: string): string {
  return join(repository, 'objects', name.slice(0, 2), name.slice(2));
}

function set({ config = '', files = {}, isPartial = false, prepare }: Trap): string {
  const where = repository();
  for (const [name, text] of Object.entries(files))
    chmodSync(place.file(join(`repository-${count}`, name), text), 0o755);
  prepare?.(where);
  const settings = join(where, '.git', 'config');
  if (config !== '')
    writeFileSync(
      settings,
      `${readFileSync(settings, 'utf8').replace('repositoryformatversion = 0', 'repositoryformatversion = 1')}${config}`,
    );
  if (isPartial) rmSync(objectOf(join(where, '.git'), git(where, 'rev-parse', 'HEAD^{tree}')));
  return where;
}

/** Whether anything was run since the last call. */
function isSprung(): boolean {
  const was = existsSync(sprung);
  rmSync(sprung, { force: true });
  return was;
}

const COMMANDS = [
  ['report', '--markdown'],
  ['report', '--out', 'r.html'],
  ['draw', '--path'],
  ['draw', '--path', '--out', 't.svg'],
  ['check'],
  ['next'],
  ['sessions'],
  ['care'],
  ['light'],
] as const;

describe.skipIf(process.platform === 'win32')('nothing is run that a repository names', () => {
  test.each(Object.keys(TRAPS))('%s', (name) => {
    const where = set(TRAPS[name]!);
    isSprung();
    const ran = COMMANDS.filter(([command, ...words]) => {
      typed(command, join(where, NAME), ...words.map((word) => (/\./.test(word) ? join(place.path, word) : word)));
      return isSprung();
    });
    expect(ran).toEqual([]);
    // Another git command runs the program: otherwise the test would show nothing.
    const { springs } = TRAPS[name]!;
    if (springs) spawnSync('git', ['-C', where, ...springs], { input: 'url=https://x.invalid\n\n', timeout: 10_000 });
    expect(isSprung()).toBe(springs !== undefined);
  });

  test('a program called git that lies in the folder', () => {
    const where = repository();
    for (const name of ['git', 'chromium'])
      chmodSync(place.file(join(`repository-${count}`, name), readFileSync(trap, 'utf8')), 0o755);
    const PATH = ['.', '', process.env['PATH']].join(delimiter);
    for (const words of [
      ['report', NAME, '--markdown'],
      ['report', NAME, '--pdf', '--out', 'r.pdf'],
    ]) {
      spawnSync(process.execPath, [program, ...words], {
        cwd: where,
        env: { ...process.env, PATH, CHROMIUM: undefined },
      });
      expect(isSprung()).toBe(false);
    }
  });

  test('a missing object is no match: the record states that the file differs', () => {
    const where = set(TRAPS['a fetch of what is missing, by ssh']!);
    expect(revision(join(where, NAME))).toMatch(/^[0-9a-f]{40}, with uncommitted changes$/);
    isSprung();
  });
});
