/** The language of a workbook's text, as package.json declares it. */
export const LANGUAGE = 'alignbook';
