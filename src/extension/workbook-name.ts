/** What the file of a workbook is called. */
export const END = '.alignbook.yaml';

/** `right.yaml` → `right.alignbook.yaml`; undefined for the name of a workbook, or of another kind of file. */
export function workbookName(name: string): string | undefined {
  const [, stem] = /^(.+?)(?:\.alignbook)?(?:\.ya?ml)?$/.exec(name) ?? [];
  const isOther = /\.[a-z]\w*$/i.test(stem ?? '');
  return stem === undefined || isOther || name.endsWith(END) ? undefined : `${stem}${END}`;
}
