/** A response where one shelf runs alone: it has no share of the load. */
import { expect, it } from 'vitest';
import { planGains } from '../../../src/studies/gains/plan.ts';
import { planResponse } from '../../../src/studies/response/plan.ts';
import { response } from '../../../src/studies/response/response.ts';
import { contextHere, messageOf } from '../here.ts';

const { read, run } = contextHere();
const planned = (
  inject: { point: 'set point'; frequencies: string; chirp: null; amplitude: null; clamps: boolean } | null,
  state: readonly string[] = [],
) =>
  planResponse(
    {
      scenario: 'scenarios/bench-step.yaml',
      changes: [],
      load_W: 12e3,
      state,
      over: null,
      inject,
      nodes: [],
      shelf: null,
      points: 5,
      measured: null,
      curve: null,
    },
    read,
  );

it('has no curve of it, and every curve has numbers', async () => {
  const report = await response.carryOut(planned(null), run);
  expect(report.curves.map(({ name }) => name)).not.toContain('set point of S1 to its share');
  for (const { gain_dB } of report.curves)
    for (const gain of gain_dB) expect(gain).toBeGreaterThan(-Infinity);
});

it('puts no sine against other shelves, and says why', async () => {
  const sine = {
    point: 'set point',
    frequencies: '250 Hz',
    chirp: null,
    amplitude: null,
    clamps: false,
  } as const;
  const said = await messageOf(() => response.carryOut(planned(sine), run));
  expect(said).toContain('set point, where S1 is the only shelf that runs');
});

it('an unknown state is named by its option, without the time that an event has', async () => {
  const said = await messageOf(async () => planned(null, ['tray-out T99', 'shake']));
  expect(said.match(/^--state$/gm)).toHaveLength(2);
  expect(said).toContain('found     unit T99');
  expect(said).toContain('found     shake\n');
  expect(said).not.toMatch(/at \d+ s|events/);
});

it('a map over the share loop of one shelf is refused, with axes that act', async () => {
  const asked = { load_W: null, accept: [], samples: 0, seed: 1, over: null, confirm: false, changes: [] };
  const map = { ...asked, scenario: 'scenarios/bench-step.yaml' };
  const said = await messageOf(async () =>
    planGains(
      { ...map, x: 'firmware.share.time_constant=20 ms | 1 s', y: 'shelves.control_delay=0 s | 20 us' },
      read,
    ),
  );
  expect(said).toContain('firmware.share.time_constant, in a cabinet of one shelf');
  expect(said).toContain('1 problem');
  const mend = /mend +write --x (.*)="(.*)"/.exec(said)!;
  const mended = { x: `${mend[1]}=${mend[2]}`, y: 'shelves.control_delay=0 s | 20 us' };
  expect(planGains({ ...map, ...mended }, read).cells).toHaveLength(24);
});
