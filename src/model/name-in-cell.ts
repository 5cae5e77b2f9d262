/** Quotes names that other YAML readers take for something else. */
export function nameInCell(name: string): string {
  return /^(y|n|yes|no|on|off|true|false|null)$/i.test(name) ? `"${name}"` : name;
}
