/** The commands' names, as package.json declares them. */
export const Command = {
  create: 'alignbook.create',
  addStep: 'alignbook.addStep',
  showTargets: 'alignbook.showTargets',
  restart: 'alignbook.restart',
  showLog: 'alignbook.showLog',
} as const;
