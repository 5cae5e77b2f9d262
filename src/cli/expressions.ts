/** `main.ts` loads it on demand: it is bundled into a file of its own. */
export { expressions } from '../workbook/index.ts';
