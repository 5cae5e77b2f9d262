/** The commands, as declared in package.json. */
export const Command = {
  create: 'alignbook.create',
  addStep: 'alignbook.addStep',
  insertCell: 'alignbook.insertCell',
  nextBlank: 'alignbook.nextBlank',
  showTargets: 'alignbook.showTargets',
  showRecord: 'alignbook.showRecord',
  saveRecord: 'alignbook.saveRecord',
  showAsNotebook: 'alignbook.showAsNotebook',
  showAsText: 'alignbook.showAsText',
  restart: 'alignbook.restart',
  showLog: 'alignbook.showLog',
} as const;
