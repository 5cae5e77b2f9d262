/** The language of a workbook, as declared in package.json. */
export const LANGUAGE = 'alignbook';
