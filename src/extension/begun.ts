/** What the user has done so far, as context keys: the walkthrough ticks a step when it is done, not when it is tried. */
import { commands } from 'vscode';

/** As declared in package.json. `hasWorkbook`: commands about the server are of use. */
export type Done = 'hasWorkbook' | 'hasCreated' | 'hasLogged' | 'hasShownTargets' | 'hasShownRecord';

export function done(what: Done): void {
  void commands.executeCommand('setContext', `alignbook.${what}`, true);
}
