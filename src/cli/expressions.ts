/** What `main.ts` loads when it is needed: bundled into a file of its own. */
export { expressions } from '../workbook/index.ts';
