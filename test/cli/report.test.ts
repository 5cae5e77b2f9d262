/** The record as it is printed and filed. */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { installBrowser } from '../workbench/editor/install.ts';
import { LIMITS, MACHINE, WITH_NUTS } from '../support/log.ts';
import { folder, typed } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());
const EXAMPLE = 'examples/1-full-service.alignbook.yaml';
const out = (name: string) => join(place.path, name);

/** What keeps a number and its unit on one line is not seen. */
const withoutSpans = (page: string) => page.replaceAll(/<\/?span>/g, '');

test('a page that needs nothing else: as found, what was done, as left, who', () => {
  const { exit, out } = typed('report', EXAMPLE);
  expect(exit).toBe(0);
  const page = withoutSpans(out);
  const missing = [
    'Record of alignment',
    'dory: 80 W engraver',
    'spring service',
    '2026-03-07',
    '3.9 ± 0.2 mm (gantry far from M1, front), limit 2.5 mm; within: &lt; 1 %',
    'Tape on M2, seen along the beam',
    'A out 1/4, B in 1/8',
    'flat side down, ring snug',
    '17.7 ± 3.8 % more than before',
    'interlock tried',
    'Released to service, 2026-03-07 13:40 by jv',
    'the tape was wider than the hole',
    'toxic if it breaks',
    'done by (jv)',
    'system-ui,"DejaVu Sans"',
  ].filter((part) => !page.includes(part));
  expect(missing).toEqual([]);
  expect(page).toContain(createHash('sha256').update(readFileSync(EXAMPLE)).digest('hex'));
  expect(
    /<script|https?:\/\/(?!www\.w3\.org\/2000\/svg)|src=|url\(|undefined|NaN|\[object/.exec(page)?.[0],
  ).toBeUndefined();
});

test('lock nuts as found and a screw at its end are printed as found, and are no moves', () => {
  const file = out('states.alignbook.yaml');
  writeFileSync(
    file,
    [
      WITH_NUTS,
      LIMITS,
      'session: look\n',
      'adjust: M1\nlock: found tight\nnote: 7 mm wrench\n',
      'adjust: M2\nno further: {B: in}\n',
      'marks: M1\nshots: centre\n',
    ].join('---\n'),
  );
  const [result, done] = typed('report', '--markdown', file).out.split('What was done');
  expect(result).toContain('Lock nuts of M1 found tight (7 mm wrench).');
  expect(result).toContain('Screw B of M2 is at its end: it goes no further in.');
  expect(done).toContain('Nothing was moved.');
  writeFileSync(
    file,
    [
      WITH_NUTS.replace('thread: M4', 'thread: M4 LH'),
      LIMITS,
      'session: work\n',
      'adjust: M1\nturn: {A: in 1/4}\nlock: found loose\n',
    ].join('---\n'),
  );
  expect(typed('report', '--markdown', file).out).toMatch(/A in 1\/4 \(anticlockwise: left\\?-hand thread\)/);
});

test('what else was measured, the hours, the photos, what was corrected, and whose machine it is', () => {
  const file = out('beside.alignbook.yaml');
  writeFileSync(
    file,
    [
      `asset: {number: NL-017, owner: Net Loft, site: quay}\npractice: {seed: 7}\n${MACHINE}`,
      LIMITS,
      'session: before\n',
      'measure: bed level\nvalues: {rear: 0.1 mm}\nlimit: 0.5 mm\n',
      'release: withdrawn\nby: jv\n',
      'session: look\nhours: 1204 h\n',
      'measure: bed level\nvalues: {rear: [0.7 mm, 0.8 mm], front left: -0.2 mm}\nwith: dial gauge\n',
      `adjust: M1\nturn: {A: in 1/8}\nphoto: {file: photos/m1.jpg, sha256: ${'ab'.repeat(32)}}\n`,
      'measure: bed level\nvalues: {rear: 0.3 mm}\nhours: 1205.5 h\n',
      'measure: coolant\nvalue: 19.5 ± 0.5 degC\nbetween: [18 degC, 22 degC]\n',
      'care: M1\ndid: inspected\namended: [{was: {did: cleaned in place, refit: [a]}, date: 2026-03-08, by: rs, reason: other mirror}]\n',
    ].join('---\n'),
  );
  const { out: page } = typed('report', '--markdown', file);
  for (const line of [
    '| number | NL-017 |',
    '| owner | Net Loft |',
    '| site | quay |',
    '| hours | 1204 h to 1205.5 h |',
    '**PRACTICE: this machine is simulated. Nothing here describes a real machine.**',
    '| bed level | rear | 0.75 mm, outside | 0.3 mm | at most 0.5 mm | dial gauge |',
    '| bed level | front left | -0.2 mm | the same | at most 0.5 mm | dial gauge |',
    '| coolant |  | 19.50 ± 0.50 degC | the same | 18 degC to 22 degC |  |',
    `| adjust M1 | photos/m1.jpg | ${'ab'.repeat(32)} |`,
    '| care M1 | ~~did: cleaned in place, refit: \\[a\\]~~ | 2026-03-08, rs | other mirror |',
  ])
    expect(page).toContain(line);
  expect(typed('report', file).out).toMatch(/<s>did: cleaned in place, refit: \[a\]<\/s>/);
});

test('a witness is named in the outcome and in the signatures', () => {
  const file = out('witness.alignbook.yaml');
  writeFileSync(file, [MACHINE, LIMITS, 'session: look\n', 'release: withdrawn\nby: jv\nwitness: rs\n'].join('---\n'));
  const { out: page } = typed('report', '--markdown', file);
  expect(page).toContain('by jv, witnessed by rs.');
  expect(page).toContain('checked by (rs), date');
});

test('as found is the first round, however many there were', () => {
  const file = out('long.alignbook.yaml');
  const rounds = Array.from({ length: 30 }, (_, k) => [
    `marks: M2\nshots: {near: ${(30 - k) / 4} right 0 up, far: ${(30 - k) / 4} right 0 up}\n`,
    'adjust: M1\nturn: {A: in 1/16}\n',
  ]).flat();
  writeFileSync(file, [MACHINE, LIMITS, 'session: long\n', ...rounds].join('---\n'));
  const { out: page } = typed('report', file);
  const texts = [...page.matchAll(/<desc>(Tape on M2[^<]*)/g)].map(([, text]) => text);
  expect(texts).toEqual([
    expect.stringContaining('Round 1 of 30. gantry near M1 (rear): 7.5 right'),
    expect.stringContaining('Round 30 of 30. gantry near M1 (rear): 0.25 right'),
  ]);
  expect(withoutSpans(page)).toContain('7.5 ± 0.2 mm (gantry');
});

test('as Markdown, with nothing in it that a name could turn into formatting', () => {
  const text = [
    MACHINE.replace('machine: wren', 'machine: wren\ntitle: "a | b *c* <b>d</b> `e`"'),
    LIMITS,
    'session: "s_1 # [x](y)"\n',
    'marks: M1\nshots: centre\n',
    'note: |\n  - one\n  | two |\n',
  ].join('---\n');
  const file = out('odd.alignbook.yaml');
  writeFileSync(file, text);
  const { exit, out: markdown } = typed('report', file, '--markdown');
  expect(exit).toBe(0);
  expect(markdown).toContain('wren: a \\| b \\*c\\* \\<b\\>d\\</b\\> \\`e\\`');
  expect(markdown).toContain('- \\- one \\| two \\|');
  expect(typed('report', file).out).toContain('a | b *c* &lt;b>d&lt;/b> `e`');
});

test.each([
  ['see https://evil.example/a_b?c=d&e, twice', 'see `https://evil.example/a_b?c=d&e,` twice'],
  ['HTTPS://evil.example', '`HTTPS://evil.example`'],
  ['(www.evil.example)', '`(www.evil.example)`'],
  ['mailto:kt@evil.example', '`mailto:kt@evil.example`'],
  ['kt@evil.example and @kt', '`kt@evil.example` and `@kt`'],
  ['<https://evil.example>|`ftp://evil.example`', '\\<`https://evil.example`\\>\\|\\``ftp://evil.example`\\`'],
  ['[a](https://evil.example)', '`[a](https://evil.example)`'],
  ['R&D &amp; 5 @ 3 mm, http: none', 'R\\&D \\&amp; 5 @ 3 mm, http: none'],
])('no forge makes a link or a name of %j in Markdown', (written, shown) => {
  const file = place.file(
    'linked.alignbook.yaml',
    [
      MACHINE,
      LIMITS,
      `session: ${JSON.stringify(written)}\n`,
      'marks: M1\nshots: centre\n',
      `note: ${JSON.stringify(written)}\n`,
    ].join('---\n'),
  );
  const { out: markdown } = typed('report', file, '--markdown');
  expect(markdown).toContain(`| ${shown} `);
  expect(markdown).toContain(`- ${shown}`);
});

test('the visits drawn, with the day from which it is no longer sure', () => {
  const page = typed('report', 'examples/6-through-the-year.alignbook.yaml').out;
  expect(page.match(/<title>\w+, visit by visit<\/title>/g)).toEqual([
    '<title>M1, visit by visit</title>',
    '<title>M2, visit by visit</title>',
  ]);
  expect(page).toMatch(/class="small name"[^>]*>2026-09-05</);
  expect(typed('report', EXAMPLE).out).not.toContain('visit by visit');
});

test('rules that are turned off: why, and which findings that hid, where', () => {
  const file = place.file(
    'off.alignbook.yaml',
    [
      MACHINE,
      `${LIMITS}rules: {fire.tape: {off: we label the marks}, log.bowed: {off: shimmed}}\n`,
      'session: a\n',
      'checks: safe\ndone: [eyewear]\n',
      'marks: M1\nshots: centre\ntape: reused\n',
      'marks: M2\nshots: {near: centre, far: centre}\n# alignbook: allow fire.tape: the last roll\ntape: reused\n',
      'release: in service # alignbook: allow by.missing: trial only\n',
    ].join('---\n'),
  );
  const text = readFileSync(file, 'utf8').split('\n');
  const line = (of: string) => text.findIndex((one) => one.startsWith(of)) + 1;
  const { out: markdown } = typed('report', file, '--markdown');
  expect(markdown.slice(markdown.indexOf('## Rules turned off'))).toContain(
    [
      '| rule | where | reason | silenced |',
      '| --- | --- | --- | --- |',
      `| fire.tape | the whole workbook | we label the marks | 1: line ${line('tape')}, marks M1 |`,
      '| log.bowed | the whole workbook | shimmed | nothing |',
      `| fire.tape | at line ${line('# alignbook')} | the last roll | 1: line ${line('# alignbook') + 1}, marks M2 |`,
      `| by.missing | at line ${line('release')} | trial only | 1: line ${line('release')}, release in service |`,
    ].join('\n'),
  );
});

test('which commit it is of, and whether the file differs from it', () => {
  const folder = out('kept');
  mkdirSync(folder);
  const file = join(folder, 'a.alignbook.yaml');
  const git = (...words: string[]) =>
    execFileSync('git', ['-C', folder, '-c', 'user.name=t', '-c', 'user.email=t@example.invalid', ...words], {
      encoding: 'utf8',
    }).trim();
  git('init', '-q');
  const revision = () => /revision \| ([^|]*) \|/.exec(typed('report', file, '--markdown').out)?.[1];
  writeFileSync(file, '\ufeffmachine: a\n');
  expect(revision()).toBeUndefined();
  git('add', '.');
  git('commit', '-qm', 'one');
  writeFileSync(file, readFileSync(EXAMPLE));
  expect(revision()).toBe(`${git('rev-parse', 'HEAD')}, with uncommitted changes`);
  git('commit', '-qam', 'two');
  expect(revision()).toBe(git('rev-parse', 'HEAD'));
  writeFileSync(file, readFileSync(EXAMPLE, 'utf8').replaceAll('\n', '\r\n'));
  expect(revision()).toBe(git('rev-parse', 'HEAD'));
});

test('a number stays on the line of its unit, and a date on its own', () => {
  const { out } = typed('report', EXAMPLE);
  expect(out).toContain(
    '<span>3.9 ± 0.2 mm</span> (gantry far from M1, front), limit <span>2.5 mm;</span> within: <span>&lt; 1 %</span>',
  );
  expect(out).toContain('due <span>2026-09-07</span>');
  expect(out).toContain('A <span>out 1/4,</span> B <span>in 1/8</span>');
});

test('the unit and the uncertainty of each mark', () => {
  const { out } = typed('report', EXAMPLE, '--markdown');
  expect(out).toContain('- within limits (probability within \\> 99 %); marks in mm, each part ± 0.2 mm\n- 1.0 up\n');
  expect(out).toContain('| marks | read to 0.5 mm, tape placed to ± 0.2 mm |');
});

test('a release without a name states so', () => {
  const file = place.file(
    'nobody.alignbook.yaml',
    readFileSync(EXAMPLE, 'utf8').replace(/(release: in service\ndate: \S+ \S+\n)by: jv\n/, '$1by:\n'),
  );
  const page = withoutSpans(typed('report', file).out);
  expect(page).toContain('Released to service, 2026-03-07 13:40 without a name, witnessed by rs.');
  expect(page).toContain('<p>done by, date</p>');
});

/** Points, of an inch 72. */
test.each([
  ['A4, where nothing is asked', [], [595, 842]],
  ['Letter', ['--paper', 'letter'], [612, 792]],
] as const)(
  'as PDF on %s, each sheet with its number and the file it is of',
  (_, asked, size) => {
    process.env['CHROMIUM'] = installBrowser();
    const file = out('r.pdf');
    expect(typed('report', EXAMPLE, '--pdf', ...asked, '--out', file)).toMatchObject({ exit: 0, out: '', error: '' });
    const pdf = readFileSync(file, 'latin1');
    expect(pdf.slice(0, 5)).toBe('%PDF-');
    const boxes = [...pdf.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)].map(([, width, height]) => [
      Math.round(Number(width)),
      Math.round(Number(height)),
    ]);
    expect(boxes.length).toBeGreaterThan(4);
    for (const box of boxes) expect(box).toEqual(size);
  },
  300_000,
);

test('each printed page has its number; the paper size is chosen when printing', () => {
  const page = typed('report', EXAMPLE).out;
  const hash = createHash('sha256').update(readFileSync(EXAMPLE)).digest('hex');
  expect(page).toContain(`"Record of alignment of a file with SHA-256 ${hash.slice(0, 16)}…"`);
  expect(page).toContain('content:"page " counter(page) " of " counter(pages)');
  expect(page).not.toMatch(/@page\{[^}]*size:/);
});

test.each([
  [['report'], '`report` needs one workbook'],
  [['report', EXAMPLE, EXAMPLE], '`report` needs one workbook'],
  [['report', EXAMPLE, '--pdf'], '`--pdf` needs `--out`'],
  [['report', EXAMPLE, '--pdf', '--markdown'], 'exclude each other'],
  [['report', EXAMPLE, '--paper', 'letter'], '`--paper` needs `--pdf`'],
  [['report', EXAMPLE, '--pdf', '--out', 'r.pdf', '--paper', 'A3'], 'There is no paper `A3`: A4 or letter.'],
  [['report', EXAMPLE, '--out', EXAMPLE], 'is the name of a workbook'],
  [['report', EXAMPLE, '--theme', 'dark'], '`report` takes no `--theme`'],
  [['report', EXAMPLE, '--json'], '`report` takes no `--json`'],
  [['report', 'no.alignbook.yaml'], 'there is no such file'],
  [['report', EXAMPLE, '--out', '/no/such/folder/r.html'], 'cannot be written: its folder does not exist.'],
] as const)('%j is refused', (words, reason) => {
  const { exit, out: printed, error } = typed(...words);
  expect({ exit, printed }).toEqual({ exit: 2, printed: '' });
  expect(error).toContain(reason);
});

test.each(['html', 'markdown'])(
  'characters that order a terminal or turn a line around are shown and not obeyed: %s',
  (as) => {
    const file = place.file(
      `orders-${as}.alignbook.yaml`,
      [
        MACHINE,
        LIMITS,
        'session: "a\\u0007b \\u202Eright"\n',
        'marks: M1\nshots: centre\n',
        'release: in service\nby: "kt \\e[31m"\n',
      ].join('---\n'),
    );
    const { out: text } = typed('report', ...(as === 'markdown' ? ['--markdown'] : []), file);
    expect(text).toContain('\\u0007');
    expect(text).toContain('\\u202e');
    expect(text).not.toMatch(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e]/);
  },
);

test('a check that was open at first and done later is not printed as open', () => {
  const cells = [
    MACHINE,
    LIMITS,
    'session: spring\n',
    'checks: make safe\nopen: [fire watch, covers closed]\n',
    'checks: make safe\ndone: [Fire  watch]\n',
  ];
  const { out: text } = typed('report', place.file('checks.alignbook.yaml', cells.join('---\n')), '--markdown');
  expect(text).toContain('open at first, done later: fire watch');
  expect(text).toContain('OPEN: covers closed');
  expect(text).not.toContain('OPEN: fire watch');
});
