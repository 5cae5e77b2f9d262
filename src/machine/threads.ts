/** Thread names, for the reader of workbooks, which must not import the optics. */
import { isLeftHanded, threadNames, threadPitch } from '../optics/index.ts';

/** Pitch in mm per turn by name, whether a name is left-handed, and all known names. */
export const threads = { pitch: threadPitch, isLeftHanded, names: threadNames } as const;
