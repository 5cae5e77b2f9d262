/** The commands, as declared in package.json. */
export const Command = {
  create: 'alignbook.create',
  addStep: 'alignbook.addStep',
  showTargets: 'alignbook.showTargets',
  showRecord: 'alignbook.showRecord',
  saveRecord: 'alignbook.saveRecord',
  showAsNotebook: 'alignbook.showAsNotebook',
  showAsText: 'alignbook.showAsText',
  practise: 'alignbook.practise',
  fire: 'alignbook.fire',
  showAdvice: 'alignbook.showAdvice',
  restart: 'alignbook.restart',
  showLog: 'alignbook.showLog',
} as const;
