/** The name of the person in new cells: whoever opens a visit and whoever releases the machine is the one who logs it. */

/** The cells, with `by:` filled in where it is blank or missing in a session or a release. */
export function withName(cells: string, name: string): string {
  if (name.trim() === '') return cells;
  return cells
    .split(/^(?=---$)/m)
    .map((cell) => (/^(?:---\n)?(?:#.*\n)*(?:session|release):/.test(cell) ? signed(cell, nameInYaml(name)) : cell))
    .join('');
}

function signed(cell: string, name: string): string {
  if (/^by: *$/m.test(cell)) return cell.replace(/^by: *$/m, () => `by: ${name}`);
  if (/^by:/m.test(cell)) return cell;
  return `${cell}${cell.endsWith('\n') ? '' : '\n'}by: ${name}\n`;
}

/** Quoted if YAML might read it as something else. */
export function nameInYaml(name: string): string {
  const text = name.trim().replace(/\s+/g, ' ');
  const isPlain = /^\p{L}[\p{L}\p{N} .'-]*$/u.test(text) && !/^(?:y|n|yes|no|on|off|true|false|null)$/i.test(text);
  return isPlain ? text : JSON.stringify(text);
}
