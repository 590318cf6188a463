/** A duty as a function: what the command does, with its problems thrown. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { BadInput, duty } from '../../src/library/node.ts';

const folder = mkdtempSync(join(tmpdir(), 'duty-'));
afterAll(() => rmSync(folder, { recursive: true }));

const bench = new URL('../../scenarios/bench-step.yaml', import.meta.url).pathname;

it('goes through the stretches of a file, with changes before its own', async () => {
  const file = join(folder, 'day.yaml');
  writeFileSync(file, `study: duty\ntitle: A day\nscenario: ${bench}\nstretches:\n  day: { for: 8 h }\n`);
  const report = await duty(file, { set: { duration: '1 s', 'load.before': '12 kW' }, workers: 1 });
  expect([report.round_s, report.stretches.map(({ name }) => name)]).toEqual([8 * 3600, ['day']]);
  expect(report.findings.map(({ id }) => id)).toContain('tray-hot-spot');
  expect(report.inputs).toContainEqual({ change: { path: 'load.before', value: '12 kW' } });
});

it('throws what is wrong with it', async () => {
  const file = join(folder, 'none.yaml');
  writeFileSync(file, `study: duty\ntitle: A day\nscenario: ${bench}\n`);
  await expect(duty(file)).rejects.toThrow(BadInput);
  await expect(duty(file)).rejects.toThrow('no stretches');
});
