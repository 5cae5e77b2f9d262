/** The record of a visit: from the log to blocks, and from blocks to a page or to Markdown. */
export type { Block } from './blocks.ts';
export { recordOf, type Identity } from './record.ts';
export { bookOfVisit } from './visit.ts';
export { toHtml, type Paper } from './to-html.tsx';
export { toMarkdown } from './to-markdown.ts';
