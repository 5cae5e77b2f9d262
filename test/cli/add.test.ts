/** `add`: what is asked, how it is read, and what is written: the cell, and nothing else. */
import { spawnSync } from 'node:child_process';
import { appendFileSync, chmodSync, lstatSync, readdirSync, readFileSync, statSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { typedMark } from '../../src/language/index.ts';
import { builtInto } from './built.ts';
import { LOGS } from './logs.ts';
import { asked, folder, typed } from './terminal.ts';

const place = folder();
const program = join(place.path, 'program', 'alignbook.cjs');
beforeAll(() => builtInto(join(place.path, 'program')), 60_000);
afterAll(() => place.remove());

let count = 0;
beforeEach(() => {
  count += 1;
});

const workbook = (text: string | Uint8Array) => place.file(`${count}/w.alignbook.yaml`, text);
const read = (file: string) => readFileSync(file, 'utf8');

/** Adds to a workbook of this text: what was printed, and what came behind the text. */
async function added(text: string, answers: readonly string[], ...options: string[]) {
  const file = workbook(text);
  const printed = await asked(['add', file, ...options], answers);
  const after = read(file);
  expect(after.startsWith(text)).toBe(true);
  return { ...printed, cells: after.slice(text.length), file };
}

const M1_SHOT = LOGS['only the first mirror shot']!;

describe('marks', () => {
  test('are asked one by one, shown in both words for each side, and written in the words of the format', async () => {
    const { exit, out, cells } = await added(M1_SHOT, ['2r 4d', '2.5 left (machine right), 3 up']);
    expect(exit).toBe(0);
    expect(cells).toBe('---\nmarks: M2\nshots:\n  near: 2 right 4 down\n  far: 2.5 left 3 up\n');
    expect(out).toContain('1 gantry near M1 (rear): 2r 4d\n  = 2.0 right (machine left) 4.0 down\n');
    expect(out).toContain('2 gantry far from M1 (front): ');
    expect(out).toContain('  = 2.5 left (machine right) 3.0 up\n');
    expect(out).toMatch(/\nM2: .*\n(Shoot|M1:|M2 is borderline) /);
  });

  test('what cannot be read is asked again, with the reason', async () => {
    const { out, cells } = await added(M1_SHOT, ['foo', '2,5 r', '', '2 front', 'centre}, x: {', '0.5r', 'c']);
    expect(cells).toBe('---\nmarks: M2\nshots:\n  near: 0.5 right\n  far: centre\n');
    expect(out).toContain('  ? A decimal point is used here, not a comma.');
    expect(out.match(/^ {2}\? /gm)).toHaveLength(5);
    expect(out).toContain('  = 0.5 right (machine left) (up or down not read)');
  });

  test('what is odd is said at once', async () => {
    const { out } = await added(M1_SHOT, ['1r 1u', '159 r 2 u']);
    expect(out).toMatch(/= 159\.0 right \(machine left\) 2\.0 up\n {2}! .*outside/);
  });

  test('`<` goes back', async () => {
    const { cells } = await added(M1_SHOT, ['1r', '<', '2r 1u', 'n']);
    expect(cells).toBe('---\nmarks: M2\nshots:\n  near: 2 right 1 up\n  far: none\n');
  });

  test('on a vertical leg the machine’s words are asked for and used', async () => {
    const { out, cells } = await added(LOGS['the lens at two corners']!, ['1r 2f', '2u', '1ri 2f', '1 l 2 re']);
    expect(out).toContain('  ? `r` may be right or rear here: ri or re.\n');
    expect(out).toContain('right or left, front or rear');
    expect(out).toContain('  = 1.0 right 2.0 front\n');
    expect(cells).toContain('mark: 1 right 2 front}\n');
    expect(cells).toContain('mark: 1 left 2 rear}\n');
  });

  test('heights on the bed are those that were measured', async () => {
    const { out, cells } = await added(LOGS['tapes at two heights']!, [
      '',
      'high',
      '142.5',
      '1ri 1f',
      '2 right 1 front',
    ]);
    expect(out).toContain('Height of tape 1 below [20 mm]: \n');
    expect(cells).toMatch(/height: 20 mm, mark: 1 right 1 front\}\n.*height: 142\.5, mark: 2 right 1 front\}\n$/);
    expect(typed('check', workbook(LOGS['tapes at two heights']! + cells)).exit).toBe(0);
  });

  test.each([
    ['2r4d', '2 right 4 down'],
    ['2.5 RIGHT, 3 down', '2.5 right 3 down'],
    ['2 right (machine left) 4 down (machine down)', '2 right 4 down'],
    ['1/16r 3/32 in u', '1/16 right 3/32 in up'],
    ['2mm r 3 mm u', '2 mm right 3 mm up'],
    ['c', 'centre'],
    ['Center', 'centre'],
    ['0', 'centre'],
    ['none', 'none'],
    ['missed', 'none'],
    ['2 at 4:30', '2 at 4:30'],
    ['2 r ± 0.3', '2 right ± 0.3'],
    ['2r size 3 mm shape oval', '2 right size 3 mm shape oval'],
    ['2,5 r', '2,5 right'],
    ['constructor', 'constructor'],
  ])('%s is `%s`', (text, mark) => expect(typedMark(text, false)).toBe(mark));

  test.each([
    ['2ri 4f', '2 right 4 front'],
    ['4re 1l', '4 rear 1 left'],
    ['4r', '4 r'],
    ['4u', '4 u'],
  ])('on an upright leg %s is `%s`', (text, mark) => expect(typedMark(text, true)).toBe(mark));
});

describe('a step without marks', () => {
  test('is logged when it is done, each with its own cell, then the marks', async () => {
    const { exit, cells } = await added(LOGS['a lock to loosen']!, ['y', 'y', 'y', 'c', 'c']);
    expect(exit).toBe(0);
    expect(cells.split('---\n').map((cell) => cell.split('\n').slice(0, 2).join(' '))).toEqual([
      '',
      'adjust: M1 lock: loose',
      expect.stringMatching(/^adjust: M1 turn: \{B: in /),
      'adjust: M1 lock: tight',
      'marks: M2 shots:',
    ]);
  });

  test('that is not done ends it, and what was done stays', async () => {
    const { exit, cells } = await added(LOGS['a lock to loosen']!, ['y', 'n']);
    expect([exit, cells]).toEqual([0, '---\nadjust: M1\nlock: loose\n']);
    const { out, cells: none } = await added(LOGS['a lock to loosen']!, ['n']);
    expect([none, out]).toEqual(['', expect.stringMatching(/Nothing was added\.\n$/)]);
  });

  test('another turn than the one advised is logged as it was', async () => {
    const { cells } = await added(LOGS['a screw in']!, ['y', 'in x', 'maybe', 'out 1 1/8', 'n']);
    expect(cells).toContain('turn: {B: out 1 1/8}\n');
  });

  test('some of the checks, by number', async () => {
    const open =
      `${LOGS['nothing shot yet']!}---\nsession: a\n---\nchecks: make safe\nopen:\n  - eyewear: yes\n`.replace(
        '  - eyewear: yes\n',
        '  - eyewear\n  - "covers: all"\n  - watch\n',
      );
    const { out, cells } = await added(open, ['9', '1 2']);
    expect(out).toContain('Rated eyewear (10.6 µm)');
    expect(cells).toBe('---\nchecks: make safe\ndone:\n  - eyewear\n  - "covers: all"\n');
    const { cells: rest } = await added(open + cells, ['y', 'c']);
    expect(rest).toBe('---\nchecks: make safe\ndone:\n  - watch\n---\nmarks: M1\nshots:\n  here: centre\n');
  });

  test('nuts that only the hand can check, and the release with a name', async () => {
    const { cells, file } = await added(LOGS['all within']!, ['y', 'y', ' ', 'Jo: "x" # y']);
    expect(cells).toBe(
      '---\nchecks: before handing back\ndone:\n  - "lock nuts of M1, M2 and M3 tight"\n---\nrelease: in service\nby: "Jo: \\"x\\" # y"\n',
    );
    expect(typed('check', file)).toMatchObject({ exit: 0 });
    expect(typed('next', '--brief', file).out).toContain('WITHIN');
  });

  test('a practice machine is not released', async () => {
    const practice = LOGS['all within']!.replace('machine: swift\n', 'machine: swift\npractice: {seed: 7, level: 1}\n');
    const { exit, error, cells } = await added(practice, [], '--yes', '--by=jv');
    expect([exit, cells]).toEqual([2, expect.not.stringContaining('release')]);
    expect(error).toContain('A practice machine cannot be released');
  });

  test('where the choice is nearly even, one of two ways', async () => {
    const even = `${LOGS['nothing shot yet']!.replace('limits:', 'limits:')}---\nmarks: M1\nshots: centre\n---\nmarks: M2\nshots: [{at: near, mark: 0 right 0.5 up}, {at: 385 mm, mark: 0.5 right 0.5 up}, {at: far, mark: 1.5 right 0.5 up}]\n`;
    const { out, cells } = await added(even, ['5', '2', 'y']);
    expect(out).toContain('Which way [1-2]: 5\n');
    expect(cells).toMatch(/^---\nadjust: M1\n/);
  });
});

describe('from a script', () => {
  test('options answer: marks by stop or number, steps, the name', async () => {
    const { exit, cells } = await added(M1_SHOT, [], '--mark', 'near=2r 4d', '--mark', '2=c');
    expect([exit, cells]).toEqual([0, '---\nmarks: M2\nshots:\n  near: 2 right 4 down\n  far: centre\n']);
    const { cells: turn } = await added(LOGS['a screw in']!, ['c', 'c'], '--yes');
    expect(turn).toMatch(/^---\nadjust: M1\nlock: loose\n---\nadjust: M1\nturn: \{B: in [^]*far: centre\n$/);
    expect((await added(LOGS['all within']!, [], '--yes', '--by', 'kt')).cells).toContain('by: kt\n');
  });

  test.each([
    ['a mark that cannot be read', ['--mark', 'near=2q'], 'Nothing was added.'],
    ['a tape that is not asked for', ['--mark', 'here=c'], 'There is no tape `here` to be read now: 1 near, 2 far.'],
    ['an option without a tape', ['--mark', '2r'], 'is not such as'],
  ])('%s is refused', async (_, options, reason) => {
    const file = workbook(M1_SHOT);
    if (reason === 'is not such as') expect(typed('add', file, ...options)).toMatchObject({ exit: 2 });
    else {
      const { exit, error } = await asked(['add', file, ...options], []);
      expect([exit, error]).toEqual([2, expect.stringContaining(reason)]);
    }
    expect(read(file)).toBe(M1_SHOT);
  });

  test('marks read before the answers end are kept, the others stay blank and are asked next time', async () => {
    const { cells } = await added(M1_SHOT, ['2r 4d']);
    expect(cells).toBe('---\nmarks: M2\nshots:\n  near: 2 right 4 down\n  far: \n');
    const file = workbook(M1_SHOT + cells);
    const { out } = await asked(['add', file], ['c']);
    expect(out).toContain('1 gantry far from M1 (front): c\n');
    expect(read(file)).toBe(`${M1_SHOT}---\nmarks: M2\nshots:\n  near: 2 right 4 down\n  far: centre\n`);
  });

  test('as a process, with lines of a pipe', () => {
    const file = workbook(M1_SHOT);
    const { status, stdout, stderr } = spawnSync(process.execPath, [program, 'add', file], {
      input: '2r 4d\nc\n',
      encoding: 'utf8',
    });
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toContain('= 2.0 right (machine left) 4.0 down');
    expect(read(file)).toContain('  near: 2 right 4 down\n  far: centre\n');
    expect(readdirSync(join(place.path, String(count)))).toEqual(['w.alignbook.yaml']);
  });
});

describe('the bytes above stay', () => {
  test.each([
    ['CRLF', (text: string) => text.replaceAll('\n', '\r\n'), '\r\n'],
    ['a byte order mark', (text: string) => `\ufeff${text}`, '\n'],
    ['no newline at the end', (text: string) => text.slice(0, -1), '\n'],
    ['CRLF and no newline at the end', (text: string) => text.replaceAll('\n', '\r\n').slice(0, -2), '\r\n'],
    ['blanks, comments and letters of any kind', (text: string) => `${text}# ende 試験  \n\n\n`, '\n'],
  ])('%s', async (_, change, end) => {
    const text = change(M1_SHOT);
    const { exit, cells } = await added(text, ['c', '1r 1u']);
    expect(exit).toBe(0);
    expect(cells.replace(/^\r?\n/, '')).toBe(
      ['---', 'marks: M2', 'shots:', '  near: centre', '  far: 1 right 1 up', ''].join(end),
    );
    if (/newline/.test(_)) expect(cells.startsWith(end)).toBe(true);
  });

  test('a half-written cell gets its marks alone', async () => {
    const half = `${M1_SHOT}---\nmarks: M2 # by hand\nshots:\n    far:   # the wall\n    near: \n`;
    const file = workbook(half);
    expect((await asked(['add', file], ['1r 1u', 'c'])).exit).toBe(0);
    expect(read(file)).toBe(half.replace('far:   #', 'far: 1 right 1 up  #').replace('near: \n', 'near: centre\n'));
  });

  test('permissions stay, and a link stays a link', async () => {
    const file = workbook(M1_SHOT);
    chmodSync(file, 0o640);
    const link = join(place.path, String(count), 'link.alignbook.yaml');
    symlinkSync(file, link);
    expect((await asked(['add', link], ['c', 'c'])).exit).toBe(0);
    expect([lstatSync(link).isSymbolicLink(), statSync(file).mode & 0o777]).toEqual([true, 0o640]);
    expect(read(file)).toContain('marks: M2');
  });

  test('a file that changed meanwhile is not written', async () => {
    const file = workbook(M1_SHOT);
    const answers = ['c', 'c'];
    const { exit, error } = await asked(['add', file], () => {
      if (answers.length === 1) appendFileSync(file, '# from elsewhere\n');
      return answers.shift();
    });
    expect([exit, error]).toEqual([2, expect.stringContaining('was changed meanwhile. Nothing was written.')]);
    expect(read(file)).toBe(`${M1_SHOT}# from elsewhere\n`);
  });
});

describe('it refuses, says why, and writes nothing', () => {
  test.each([
    ['a conflict', `${M1_SHOT}<<<<<<< mine\n# a\n=======\n# b\n>>>>>>> theirs\n`, 'conflict is not resolved'],
    [
      'an error in the last cell',
      `${M1_SHOT}---\nadjust: M1\nturn: {B: 1/4}\n`,
      'The last cell has an error: A turn must',
    ],
    ['what only a hand can cure', LOGS['no tape is hit']!, 'There is nothing to log before that.'],
    ['no limits', LOGS['no limits']!, 'There is nothing to log before that.'],
  ])('%s', async (_, text, reason) => {
    const { exit, error, cells } = await added(text, ['y', 'y', 'c']);
    expect([exit, cells]).toEqual([2, '']);
    expect(error).toContain(reason);
  });

  test('a missing file, a folder, standard input', async () => {
    expect(await asked(['add', join(place.path, 'none.alignbook.yaml')], [])).toMatchObject({ exit: 2 });
    expect(await asked(['add', place.path], [])).toMatchObject({ exit: 2 });
    expect(typed('add', '-')).toMatchObject({ exit: 2 });
    expect(typed('add')).toMatchObject({ exit: 2 });
  });

  test('nothing is left to do', async () => {
    const { exit, out, cells } = await added(LOGS['within and signed off']!, ['y']);
    expect([exit, cells, out]).toEqual([0, '', 'Nothing was added.\n']);
  });
});

test('an unfit part is logged as replaced', async () => {
  const { cells } = await added(`${M1_SHOT}---\ncare: M2\nfound: cracked\n`, ['y']);
  expect(cells).toBe('---\ncare: M2\ndid: replaced\n');
});
