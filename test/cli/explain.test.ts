/** `explain`: what a finding means, from the table that the editor and `findings.md` use. */
import { expect, test } from 'vitest';
import { findings } from '../../shared/findings.ts';
import { typed } from './terminal.ts';

const flat = (text: string) => text.replaceAll(/\s+/g, ' ');

test('every finding: message, severity, help, and the example of findings.md', () => {
  for (const [code, { message, help }] of Object.entries(findings)) {
    const { exit, out, error } = typed('explain', code);
    expect([exit, error], code).toEqual([0, '']);
    expect(out.startsWith(`${code}\n`)).toBe(true);
    expect(flat(out), code).toContain(flat(message.replace(/\{\w+\}/g, '…').replace(/([.?]) ?…$/, '$1')));
    expect(flat(out), code).toContain(flat(help));
    expect(out, code).toMatch(/^ {2}gravity {3}(An error|A warning|For information|A hint)/m);
    expect(out, code).toMatch(/^ {2}example {3}\S/m);
    expect(out.split('\n').filter((line) => line.length > 79 && line.includes(' '.repeat(13)))).toEqual([]);
  }
});

test('an example is the line and what is said of it', () => {
  expect(flat(typed('explain', 'thread.unknown').out + typed('explain', 'machine.thread').out)).toMatch(
    /example \S.*M44.* Unknown thread `M44`\. Did you mean `M4`\?/,
  );
});

test.each([
  ['a slip', 'mark.outsid', /Did you mean `mark\.outside`/],
  ['the second word', 'outside', /`mark\.outside`/],
  ['the first word', 'thread', /Did you mean/],
  ['nothing like it', 'xyzzy', /`check` prints the codes/],
  ['an order to the terminal', '\u001b[2J', /There is no finding `\\u001b\[2J`/],
  ['a name of JavaScript’s own', 'constructor', /There is no finding `constructor`/],
])('%s is refused, with the nearest names', (_, code, expected) => {
  const { exit, out, error } = typed('explain', code);
  expect([exit, out]).toEqual([2, '']);
  expect(error).toMatch(expected);
});

test.each([[[]], [['a.b', 'c.d']]])('without one code the usage is printed', (codes) => {
  expect(typed('explain', ...codes)).toMatchObject({
    exit: 2,
    out: '',
    error: expect.stringContaining('explain CODE'),
  });
});
