/** What thread names mean, for the reader of workbooks, which knows nothing of hardware. */
import { threadNames, threadPitch } from '../optics/index.ts';

export const threads = { pitch: threadPitch, names: threadNames } as const;
