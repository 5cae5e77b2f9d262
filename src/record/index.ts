/** The record of a visit: the log as blocks, and blocks as a page or as Markdown. */
export type { Block } from './blocks.ts';
export { recordOf, type Identity } from './record.ts';
export { bookOfVisit } from './visit.ts';
export { toHtml, type PaperSize } from './to-html.tsx';
export { toMarkdown } from './to-markdown.ts';
