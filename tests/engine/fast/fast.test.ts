/**
 * The compiled kernel against the plain loops: the same bits, in every branch the scenarios reach, and proof
 * that it was the compiled one that ran. Tolerance: none.
 */
import { createHash } from 'node:crypto';
import { describe, expect, it, vi } from 'vitest';
import { kernels, staleSources } from '../../../scripts/kernel/sources.ts';
import { readTextFile } from '../../../src/disk/read-file.ts';
import { ready } from '../../../src/engine/cabinet.ts';
import type { KernelChoice } from '../../../src/engine/fast/kernel-form.ts';
import type { Result } from '../../../src/engine/result.ts';
import { simulate } from '../../../src/engine/simulate.ts';
import { Step } from '../../../src/engine/step.ts';
import { levelsOf } from '../../../src/limits/levels.ts';
import { makeDemand } from '../../../src/loads/make-demand.ts';
import { assemble } from '../../../src/network/network.ts';
import { readScenario } from '../../../src/scenario/read.ts';
import { smallCabinet } from '../small-cabinet.ts';

function scenarioOf(name: string, changes: readonly (readonly [string, string])[]) {
  return readScenario(`scenarios/${name}.yaml`, {
    files: readTextFile,
    changes: changes.map(([path, value]) => ({ path, value })),
  }).scenario;
}

function bits(result: Result): string {
  const hash = createHash('sha256');
  const eat = (column: Float32Array | Float64Array | Uint32Array): void => {
    hash.update(new Uint8Array(column.buffer, column.byteOffset, column.byteLength));
  };
  const { min, max, mean, closeUps } = result.recording;
  for (const column of [...min, ...max, ...mean]) eat(column);
  for (const { time_s, values } of closeUps) [time_s, ...values].forEach(eat);
  for (const stream of result.streams) eat(stream.samples);
  for (const column of Object.values(result.stays.normal)) eat(column);
  hash.update(JSON.stringify([result.audit, result.extremes, result.meanSquares, result.log, result.share]));
  return hash.digest('hex');
}

function runWith(
  kernel: KernelChoice,
  name: string,
  changes: readonly (readonly [string, string])[],
): Result {
  const scenario = scenarioOf(name, changes);
  const levels_V = levelsOf(scenario.limits, scenario.nominal_V);
  return simulate(assemble(scenario), makeDemand(scenario), { levels_V, kernel });
}

describe('the compiled kernel', () => {
  it.each([
    { trays: 1, banks: 0, batteries: 0, sleds: 1 },
    { trays: 0, banks: 1, batteries: 0, sleds: 1 },
    { trays: 1, banks: 1, batteries: 0, sleds: 2 },
    { trays: 0, banks: 1, batteries: 1, sleds: 2 },
  ])(
    'gives the bits of the loops where three bars meet at a node: $trays, $banks, $batteries, $sleds',
    (units) => {
      const load = '{ kind: step, before: 4 kW, after: 12 kW, at: 10 ms, edge: 1 ms }';
      const scenario = smallCabinet({ ...units, load, duration: '60 ms', events: [] });
      const levels_V = levelsOf(scenario.limits, scenario.nominal_V);
      const [plain, ...compiled] = (['plain', 'fast', 'linked'] as const).map((kernel) =>
        bits(simulate(assemble(scenario), makeDemand(scenario), { levels_V, kernel })),
      );
      expect(compiled).toEqual([plain, plain]);
    },
  );

  it.each([
    ['single-step', [['duration', '0.3 s']]],
    ['shelf-trip', [['duration', '0.3 s']]],
    [
      'single-step',
      [
        ['duration', '0.11 s'],
        ['shelves.loop_period', '50 us'],
        ['shelves.loop_latency', '20 us'],
        ['shelves.loop_jitter', '10 us'],
        ['shelves.loop_voltage_bits', '12'],
        ['shelves.loop_voltage_range', '64 V'],
      ],
    ],
    ['link-bar-out', [['duration', '5.2 s']]],
    ['ac-loss-and-return', [['duration', '5.8 s']]],
    ['end-of-life', [['duration', '1.6 s']]],
    ['bank-short', [['duration', '1.2 s']]],
    ['sled-short', [['duration', '1.2 s']]],
    [
      'tray-out',
      [
        ['duration', '1.2 s'],
        ['events.1.at', '0.3 s'],
      ],
    ],
    [
      'single-step',
      [
        ['duration', '0.3 s'],
        ['shelves.line_ripple', '100 %'],
      ],
    ],
  ] as const)('gives the same bits as the plain loops on %s', (name, changes) => {
    const plainSteps = vi.spyOn(Step.prototype, 'take');
    const compiled = (['linked', 'fast'] as const).map((kernel) => bits(runWith(kernel, name, changes)));
    expect(plainSteps).not.toHaveBeenCalled();
    plainSteps.mockRestore();
    const plain = bits(runWith('plain', name, changes));
    expect(compiled).toEqual([plain, plain]);
  });

  it('has room for the streams of every channel', () => {
    const scenario = scenarioOf('single-step', [['duration', '0.1 s']]);
    const levels_V = levelsOf(scenario.limits, scenario.nominal_V);
    const run = (streamed: readonly string[]) =>
      simulate(assemble(scenario), makeDemand(scenario), { levels_V, streamed });
    const ids = run([]).recording.channels.map(({ id }) => id);
    expect(
      run(ids)
        .streams.map(({ channel }) => channel)
        .sort(),
    ).toEqual([...ids].sort());
  });

  it('is the one that runs unless the plain one is asked for', () => {
    const scenario = scenarioOf('single-step', []);
    const kernelOf = (kernel?: KernelChoice) =>
      ready(assemble(scenario), makeDemand(scenario), 1, kernel).stepper.kernel.form;
    expect(kernelOf()).toBe('fast');
    expect(kernelOf('plain')).toBe('plain');
  });

  it('is compiled from the sources as they are', () => {
    expect(kernels.flatMap(staleSources)).toEqual([]);
  });
});
