/** The record as Markdown, for forges and wikis. Figures are left out; marks and drift are in words. */
import { harmlessLines } from '../model/index.ts';
import type { Block } from './blocks.ts';

/** The Markdown text of a record. */
export function toMarkdown(blocks: readonly Block[]): string {
  return harmlessLines(
    `${blocks
      .map(written)
      .filter((text) => text !== '')
      .join('\n\n')}\n`,
  );
}

function written(block: Block): string {
  switch (block.kind) {
    case 'title':
      return `# ${inline(block.text)}`;
    case 'heading':
      return `## ${inline(block.text)}`;
    case 'subheading':
      return `### ${inline(block.text)}`;
    case 'text':
      return inline(block.text);
    case 'notice':
      return `**${inline(block.text)}**`;
    case 'list':
      return block.items.map((item) => `- ${inline(item)}`).join('\n');
    case 'facts':
      return table(['', ''], block.rows);
    case 'table':
      return table(block.head, block.rows, block.struck);
    case 'targets':
      return block.targets
        .map(({ caption, items }) =>
          [`${inline(caption)}:`, '', ...items.map((item) => `- ${inline(item)}`)].join('\n'),
        )
        .join('\n\n');
    case 'visits':
    case 'watermark':
      return '';
    case 'signatures':
      return block.whose.map((name) => `${inline(name)}, date: ____________________`).join('  \n');
  }
}

function table(head: readonly string[], rows: readonly (readonly string[])[], struck?: number): string {
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  const row = (cells: readonly string[]) =>
    line(cells.map((cell, k) => (k === struck ? `~~${inline(cell)}~~` : inline(cell))));
  return [line(head.map(inline)), `|${' --- |'.repeat(head.length)}`, ...rows.map(row)].join('\n');
}

/** Escapes text: nothing in it becomes formatting, a line end or a link. */
function inline(text: string): string {
  const pieces = text.replace(/(?<!\s)\s*\n\s*/g, ' ').split(/([\s`|\\<>]+)/);
  const safe = pieces.map((piece) => (ADDRESS.test(piece) ? `\`${piece}\`` : escaped(piece))).join('');
  return safe.replace(/^([-+]|\d+\.)(?=\s)/, '\\$1');
}

/** Links and `@names`: forges turn them into links even if they are escaped, but not in a code span. */
const ADDRESS = /:\/\/|www\.|mailto:|xmpp:|@\w/i;

function escaped(text: string): string {
  return text.replace(/[\\`*_{}[\]<>|#~&]/g, '\\$&');
}
