/** Access to workbooks on disk and to the program's own files. */
export {
  folderNamed,
  folderOf,
  isFolder,
  loadInside,
  placeOf,
  readText,
  STANDARD_INPUT,
  type Folder,
} from './files.ts';
export { part } from './part.ts';
export { workbooksIn } from './workbooks-in.ts';
