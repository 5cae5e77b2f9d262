/** The notebook's type, as declared in package.json and known to the server. */
export const NOTEBOOK = 'alignbook';

/** The editor opens larger notebooks slowly; the text and the panel have no such limit. */
export const MOST_CELLS = 1000;
