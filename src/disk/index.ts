/** Workbooks on disk, and no other file. */
export { folderOf, loadInside, placeOf, readText, STANDARD_INPUT, type Folder } from './files.ts';
export { workbooksIn } from './workbooks-in.ts';
