/** The commands, as declared in package.json. */
export const Command = {
  create: 'alignbook.create',
  fillIn: 'alignbook.fillIn',
  addStep: 'alignbook.addStep',
  showTargets: 'alignbook.showTargets',
  showRecord: 'alignbook.showRecord',
  saveRecord: 'alignbook.saveRecord',
  showAsNotebook: 'alignbook.showAsNotebook',
  showAsText: 'alignbook.showAsText',
  openMachine: 'alignbook.openMachine',
  machineTargets: 'alignbook.machineTargets',
  machineRecord: 'alignbook.machineRecord',
  readMachines: 'alignbook.readMachines',
  openExample: 'alignbook.openExample',
  restart: 'alignbook.restart',
  showLog: 'alignbook.showLog',
} as const;
