import { describe, expect, it } from 'vitest';
import { messageOf, readShipped } from '../shipped.ts';

const file = 'models/gains-fast-signal.yaml';

describe('a gains file', () => {
  it('sets what it names, before the changes of the scenario and the command line', () => {
    const { scenario } = readShipped('scenarios/fast-signal.yaml', [], {
      changes: [{ path: 'firmware.smoothing.latency', value: '0.2 ms' }],
    });
    expect(scenario.firmware.smoothing.period_s).toBe(1e-4);
    expect(scenario.firmware.smoothing.latency_s).toBe(2e-4);
    expect(scenario.firmware.share.time_constant_s).toBe(0.066);
    expect(scenario.inputs.map(({ path }) => path)).toContain(file);
  });

  it('refuses a path that the model lacks and a value without its source, each at its place', () => {
    const message = messageOf(
      [
        [file, 'firmware.smoothing.latency:', 'firmware.smoothing.latencyy:'],
        [file, 'source: derived, why: "middle', 'source: guessed, why: "middle'],
      ],
      {},
      'scenarios/fast-signal.yaml',
    );
    expect(message).toMatchInlineSnapshot(`
      "models/gains-fast-signal.yaml:14:3  firmware.smoothing.latencyy
        found     path firmware.smoothing.latencyy
        expected  a path of the scenario, for example trays.capacitance or trays.T4.capacitance
        mend      nearest: firmware.smoothing.latency, firmware.smoothing.assist, firmware.smoothing.leak_time
      models/gains-fast-signal.yaml:16:57  firmware.share.time_constant
        found     source guessed
        expected  one of published, derived, assumed, measured, with why or citation
        mend      write { value: …, source: assumed, why: "…" }
      2 problems in 1 file. Nothing was run."
    `);
  });
});
