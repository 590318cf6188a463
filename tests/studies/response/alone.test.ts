/** A response where one shelf runs alone: it has no share of the load. */
import { expect, it } from 'vitest';
import { planResponse } from '../../../src/studies/response/plan.ts';
import { response } from '../../../src/studies/response/response.ts';
import { contextHere, messageOf } from '../here.ts';

const { read, run } = contextHere();
const planned = (
  inject: { point: 'set point'; frequencies: string; chirp: null; amplitude: null; clamps: boolean } | null,
) =>
  planResponse(
    {
      scenario: 'scenarios/bench-step.yaml',
      changes: [],
      load_W: 12e3,
      state: [],
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
