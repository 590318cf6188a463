import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type ReadScenario, readScenario } from '../../../../src/scenario/read.ts';
import { leverOf } from '../../../../web/engine/worker/lever.ts';
import { offerOf } from '../../../../web/engine/worker/offer.ts';

function read(name: string, changes: { path: string; value: string }[] = []): ReadScenario {
  return readScenario(`scenarios/${name}.yaml`, {
    files: (path) => ({ text: readFileSync(path, 'utf8'), sha256: '0' }),
    changes,
  });
}

const pulse = read('pulse-train');

describe('what the page offers', () => {
  it('is named by paths that a change may name, with the value that the scenario has', () => {
    const { groups, load } = offerOf(pulse);
    const levers = [...load, ...groups.flatMap((group) => group.levers)];
    expect(levers.length).toBeGreaterThan(15);
    for (const { path, quantity } of levers) {
      expect(pulse.paths).toContain(path);
      expect(quantity, path).not.toBeNull();
    }
    // Written back as they stand, they change nothing.
    const { scenario } = read(
      'pulse-train',
      levers.map(({ path, text }) => ({ path, value: text })),
    );
    expect(scenario.trays).toEqual(pulse.scenario.trays);
    expect(scenario.banks).toEqual(pulse.scenario.banks);
    expect(scenario.firmware).toEqual(pulse.scenario.firmware);
    expect(scenario.load).toEqual(pulse.scenario.load);
  });

  it('holds every latency of the firmware, whatever task it is of', () => {
    const named = offerOf(pulse).groups.flatMap(({ levers }) => levers.map(({ path }) => path));
    const latencies = [...pulse.cells.keys()].filter((path) => /^firmware\.\w+\.latency$/.test(path));
    expect(latencies.length).toBeGreaterThanOrEqual(3);
    expect(named).toEqual(expect.arrayContaining(latencies));
  });

  it('counts units up to what the fill order of the cabinet names', () => {
    expect(leverOf('trays.count', pulse)).toMatchObject({
      text: '10',
      quantity: { range: { low: 0, high: 16, scale: 'whole' } },
    });
  });

  it('tells of one recording its scale alone', () => {
    expect(offerOf(read('recorded-training')).load.map(({ path }) => path)).toEqual(['load.peak']);
  });
});

describe('a lever', () => {
  it('of units that differ has no single value', () => {
    expect(leverOf('shelves.set_point_offset', pulse)).toMatchObject({ text: '', quantity: null });
  });

  it('of words and flags offers them', () => {
    expect(leverOf('firmware.share.mode', pulse)?.words).toEqual(['average', 'highest']);
    expect(leverOf('trays.T4.fitted', pulse)).toMatchObject({ text: 'yes', words: ['yes', 'no'] });
  });

  it('of a path that is none is none', () => {
    expect(leverOf('trays.colour', pulse)).toBeNull();
  });
});
