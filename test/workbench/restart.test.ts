/** A server that stops by itself is restarted, with a message. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { useWorkbench } from './editor/use.ts';

const workbench = useWorkbench({ 'wrong.alignbook.yaml': 'machin: heron\n' });

test('the server is started again when it stopped', async () => {
  await workbench().show('wrong.alignbook.yaml');
  const underlined = workbench().editor.locator('.squiggly-error');
  await underlined.first().waitFor();
  kill(servers());
  const said = workbench()
    .page.locator('.notification-toast')
    .filter({ hasText: 'The Alignbook server stopped and is restarting' });
  await said.waitFor();
  await workbench().picture('restart');
  await underlined.first().waitFor();
  expect(servers()).toHaveLength(1);
});

test('a command starts it anew', async () => {
  const before = servers();
  await workbench().command('Alignbook: Restart Server');
  await expect.poll(() => servers().filter((id) => !before.includes(id)).length).toBe(1);
  await expect.poll(servers).toHaveLength(1);
  await workbench().editor.locator('.squiggly-error').first().waitFor();
});

test('the log states what happened, each line with its level', async () => {
  await workbench().command('Alignbook: Show Server Messages');
  const log = workbench().page.locator('.part.panel .view-lines');
  await expect.poll(() => log.textContent()).toMatch(/\[info\].The.server.answers/u);
});

/** Windows of other tests take a while to go. */
const others = started();

/** Process ids of the language servers of this window. */
function servers(): number[] {
  return started().filter((id) => !others.includes(id));
}

function started(): number[] {
  const ids = readdirSync('/proc').filter((name) => /^\d+$/.test(name));
  return ids.filter((id) => /workbench-.*dist\/server\.cjs/.test(commandLine(id))).map(Number);
}

function commandLine(id: string): string {
  try {
    return readFileSync(`/proc/${id}/cmdline`, 'utf8');
  } catch {
    return '';
  }
}

function kill(ids: readonly number[]): void {
  for (const id of ids) process.kill(id, 'SIGKILL');
}
