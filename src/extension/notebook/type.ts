/** The notebook's type, as package.json and the server know it. */
export const NOTEBOOK = 'alignbook';

/** More take the editor long to open; text and panel do not mind. */
export const MOST_CELLS = 1000;
