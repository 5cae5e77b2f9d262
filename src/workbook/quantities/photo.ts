/** Paths of pictures and their hashes. Whether the file exists is checked where files are read. */
import { problem, quoted, read, refuse, type Reading } from './reading.ts';

const ENDINGS = /\.(?:png|jpe?g|webp)$/i;

/** `/` between folders. Problems: `photo.unusable`. */
export function readPhotoPath(text: string): Reading<string> {
  return usable(text, ENDINGS, 'its name must end in .png, .jpg, .jpeg or .webp');
}

/** In lower case. Problems: `photo.unusable`. */
export function readSha256(text: string): Reading<string> {
  const reading = usable(text, /^[0-9a-f]{64}$/i, 'a SHA-256 has 64 hexadecimal digits');
  return reading.value === undefined ? reading : read(reading.value.toLowerCase());
}

function usable(text: string, form: RegExp, reason: string): Reading<string> {
  const trimmed = text.trim();
  if (form.test(trimmed)) return read(trimmed);
  const from = text.length - text.trimStart().length;
  return refuse(problem('photo.unusable', from, from + trimmed.length, { text: quoted(text), reason }));
}
