/** Lines and signs of which a file is full that is meant to hurt. */
export const HOSTILE_LINES: readonly string[] = [
  '---\n',
  '\r',
  '%\n',
  '\n',
  '<<<<<<< a\nb\n=======\n>>>>>>> c\n',
  '=======\n',
  'a\n...\n',
  '"',
  '- ',
];
