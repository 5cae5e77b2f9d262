/** Workbooks on disk, the program's own parts, and no other file. */
export { folderOf, loadInside, placeOf, readText, STANDARD_INPUT, type Folder } from './files.ts';
export { part } from './part.ts';
export { workbooksIn } from './workbooks-in.ts';
