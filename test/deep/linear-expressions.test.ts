/**
 * Regular expressions over text of any length, in a form whose cost is linear. Each matches the same as its plain form,
 * which is given here and has quadratic cost.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { noteIn, splitCells } from '../../src/cells/index.ts';
import { conflictFixes } from '../../src/language/fixes/conflict-fixes.ts';
import { completionsAt, createGuide, foldsOf } from '../../src/language/index.ts';
import { isLeftHanded } from '../../src/optics/index.ts';
import { toHtml, toMarkdown } from '../../src/record/index.ts';
import { commentsIn } from '../../src/workbook/comments.ts';
import { remarksIn } from '../../src/workbook/remarks.ts';
import { typingAt } from '../../src/workbook/typing.ts';
import { after, bookOf } from '../support/workbook.ts';
import { drawn } from '../support/amount.ts';

/** Checks the property on random texts of these pieces. */
function all(pieces: readonly string[], holds: (text: string) => void, usual = 2000): void {
  const texts = fc.array(fc.constantFrom(...pieces), { maxLength: 14 }).map((parts) => parts.join(''));
  fc.assert(
    fc.property(texts, (text) => holds(text)),
    drawn(usual),
  );
}

describe('the record', () => {
  const markdown = (text: string) => toMarkdown([{ kind: 'list', items: [text] }]);

  test('lines of a text in one', () =>
    all(['a', 'b.', ' ', '\n', '\n', '\t', '\u00a0', '\r', '- '], (text) => {
      expect(markdown(text)).toBe(markdown(text.replace(/\s*\n\s*/g, ' ')));
    }));

  const ONE =
    /((?:\d{4}-\d\d-\d\d|(?:in|out) \d+(?:\/\d+)?(?![\w.:])|(?:[<>] )?\d[\d.]*(?:(?: \d+)?\/\d+)?(?: ± \d[\d.]*)? (?:%|mm|in|mrad|W|µm|ms|s|h|J\/m²)(?![\p{L}\d]))[,;.)]?)/u;

  const WORDS = ['/', ' mm', ' % ', 'in ', 'out ', '< ', ' ± ', '2026-03-07 ', 'x', ',', ' s', '-', ':'];

  test('numbers with their units', () =>
    all(['1', '23', '.', '..', ' ', ' ', ...WORDS], (text) => {
      const page = toHtml([{ kind: 'list', items: [text] }], { hash: '' });
      const parts = text
        .split(ONE)
        .map((part) => part.replaceAll('<', '&lt;'))
        .map((part, k) => (k % 2 === 1 ? `<span>${part}</span>` : part))
        .join('');
      expect(/<li>([^]*)<\/li>/.exec(page)?.[1]).toBe(parts);
    }));
});

test('the end of a note', () =>
  all(['a', '\n', '\n', '\n  b', '\n  ', '  c'], (rest) => {
    const [text, kept] = ['|', '|+'].map((style) => noteIn(`note: ${style}\n  x${rest}`));
    expect(text).toBe(kept?.replace(/\n+$/, ''));
  }));

const BLOCK = /^[\w-]+:[^\n]*\n(?:(?:[ ]+[^\n]*)?\n)*(?:[ ]+[^\n]+)/gm;

test('folding ranges', () =>
  all(['a:', ' b', '  c: 1', '\n', '\n', '\n', ' ', 'x-y: 1', '#', '\r\n', '-:\r'], (text) => {
    const { cells } = splitCells(text);
    const plain = cells.flatMap(({ start, text: cell }) =>
      [...cell.matchAll(BLOCK)].map(({ index, 0: block }) => ({
        start: start + index,
        end: start + index + block.trimEnd().length,
      })),
    );
    // A key with nothing but blanks below it is no block.
    const blocks = plain.filter(({ start, end }) => text.slice(start, end).includes('\n'));
    const folds = foldsOf(bookOf(text));
    expect(folds).toEqual(expect.arrayContaining(blocks));
    expect(folds.length).toBeLessThanOrEqual(cells.length + blocks.length);
  }));

test('the sides of a conflict', () => {
  const CONFLICT =
    /^<<<<<<<[^\n]*\n([^]*?)^(?:\|\|\|\|\|\|\|[^\n]*\n[^]*?)?^=======[^\n]*\n([^]*?)^>>>>>>>[^\n]*(?:\n|$)/m;
  const lines = fc
    .array(fc.constantFrom('by: a\n', 'date: 2026-01-02\n', '---\n', 'x\n'), { maxLength: 3 })
    .map((some) => some.join(''));
  const base = fc.oneof(
    fc.constant(''),
    lines.map((some) => `||||||| c\n${some}`),
  );
  fc.assert(
    fc.property(lines, lines, base, lines, fc.constantFrom('', '\n'), (before, ours, common, theirs, end) => {
      const text = `note: n\n${before}<<<<<<< a\n${ours}${common}=======\n${theirs}>>>>>>> b${end}`;
      const [whole, mine, others] = CONFLICT.exec(text)!;
      const book = bookOf(text);
      const fixes = conflictFixes(book, book.findings().find(({ code }) => code === 'cells.conflict')!);
      const start = text.indexOf(whole);
      const put = (side: string | undefined) => [{ start, end: start + whole.length, text: side }];
      expect(fixes.slice(1).map(({ changes }) => changes)).toEqual([put(mine), put(others)]);
    }),
    drawn(300),
  );
});

test('left-handed threads', () =>
  all(['M4', ' ', '\t', '-', 'LH', 'lh', 'x'], (name) => {
    expect(isLeftHanded(name)).toBe(/(?:\s+|\s*-\s*)LH$/i.test(name.trim()));
  }));

test('remarks', () =>
  all(['#', '# ', 'alignbook:', ' ', '\t', 'allow x: y', '\u2028', '\r', 'z'], (text) => {
    const comment = `#${text}\n`;
    const comments = commentsIn(comment).map(({ start, end }) => comment.slice(start, end));
    const remarks = comments.flatMap((one) => /^#+\s*alignbook:\s*(.*)$/.exec(one)?.[1] ?? []);
    expect(remarksIn(comment, 0).map((remark) => remark.instruction)).toEqual(
      comment.includes('alignbook:') ? remarks : [],
    );
  }));

describe('the text that is being typed', () => {
  test('in a comment, or not', () =>
    all(['a', ' #', '#', '\t#', '"', "'", ' ', 'b: '], (line) => {
      if (/^[ \t]*#|[ \t]#[^"']*$/.test(line)) expect(typingAt(`marks: M2\n${line}`, line.length + 10)).toBeUndefined();
    }));

  test('the keys behind it in brackets', () =>
    all(['a', 'b1', ' ', ':', ': ', ',', '-', '\t', '"'], (rest) => {
      const head = 'marks: M2\nshots: {';
      const result = typingAt(`${head}${rest}}\n`, head.length);
      if (result) expect(result.present).toEqual([...rest.matchAll(/([\w]+)\s*:/g)].map(([, key]) => key));
    }));

  const guide = createGuide();
  const replaced = (line: string) => {
    const text = after(line);
    const [start] = [...new Set(completionsAt(bookOf(text), guide, text.length).map((one) => one.start))];
    return start === undefined ? undefined : text.slice(start);
  };

  test.each([
    ['a word of a mark', 'marks: M1\nshots: 1 ', /[A-Za-z]*$/],
    ['a unit', 'limits: w\nstations: {M1: {centre: 3 ', /[A-Za-z%]*$/],
    ['a name in arithmetic', 'work: w\na: 1 mm\nb: 2 * ', /(?:[A-Za-z][\w.]*)?$/],
  ] as const)('%s', (_, line, plain) =>
    all(
      ['r', 'i', 'M1', '.', '_', '1', ' ', '%', '+ ', '(', '.far'],
      (typed) => {
        const word = replaced(line + typed);
        if (word !== undefined) expect(word).toBe(plain.exec(typed)![0]);
      },
      300,
    ),
  );
});
