/** What is asked, and a workbook that can be saved. */
import { expect, test } from 'vitest';
import { useWorkbench } from './editor/use.ts';

const workbench = useWorkbench({ 'README.md': '' });

test('a workbook is begun from answers, with a way back', async () => {
  await workbench().command('Alignbook: Create a Workbook');
  await workbench().answer('What is the name of the machine', 'heron');
  await workbench().pick('As you stand in front of the machine', 'beam leaves to the right');
  await workbench().back('Which unit do you measure in?');
  await workbench().pick('As you stand in front of the machine', 'beam leaves to the left');
  await workbench().pick('Which unit do you measure in?', 'Millimetres');
  await workbench().answer('How far does the head travel', '900 600');
  await workbench().picture('create');
  await workbench().pick('How many screws', 'The third point');
  await workbench().back('Do the screws have lock nuts?');
  await workbench().pick('How many screws', 'Three');
  await workbench().pick('As you face the screw heads', 'Upper right');
  await workbench().pick('Do the screws have lock nuts?', 'Lock nuts');
  await workbench().answer('Is there a nozzle', '4 x 45');
  await workbench().answer('How far may the beam tilt', '12');
  await workbench().tab('heron.alignbook.yaml').waitFor();
  await workbench()
    .statusItem(/Make safe \(\d open\)/)
    .waitFor();
  expect(await workbench().editor.locator('.squiggly-error').count()).toBe(0);
  await workbench().picture('created');
  const text = await workbench().saved('heron.alignbook.yaml');
  expect(text).toMatch(/^# Seen from above: heron\.[^]*\nmachine: heron\n.*fires: left/);
  expect(text).toContain('screws: {upper_left: {}, lower_left: {}, lower_right: {}}\n    locks: nut');
  expect(text).toContain('nozzle: {leg: 45 mm, aperture: 4 mm}');
  expect(text).toContain('far: 1000 mm');
});

test('a name without a letter at its start is refused while it is typed', async () => {
  await workbench().command('Alignbook: Create a Workbook');
  await workbench().page.locator('.quick-input-widget input').fill('2 heron');
  await workbench().page.locator('.quick-input-message').filter({ hasText: 'Use a letter first' }).waitFor();
  await workbench().page.keyboard.press('Escape');
});
