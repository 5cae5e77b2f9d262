/** What thread names mean, for the reader of workbooks, which knows nothing of hardware. */
import { isLeftHanded, threadNames, threadPitch } from '../optics/index.ts';

export const threads = { pitch: threadPitch, isLeftHanded, names: threadNames } as const;
