import { describe, expect, it } from 'vitest';
import { readBankLife } from '../../src/analysis/read/bank-life.ts';
import { readJointHeat } from '../../src/analysis/read/joints.ts';
import { readTrayFollows } from '../../src/analysis/read/tray-follows.ts';
import { caseOf } from '../../src/analysis/record/case.ts';
import { run } from '../../src/run.ts';
import { jointRise_K } from '../../src/slow/joint-heat.ts';
import { happens } from '../happens.ts';
import { readShipped } from '../scenario/shipped.ts';
import { demandOf, resultOf, scenarioOf } from './fixture.ts';

describe('the heat of a joint', () => {
  it('is R_thj R I² over 1 − α of it', () => {
    const { steady_K, cold_K } = jointRise_K(0.5, 5e-6, 2000);
    expect(cold_K).toBeCloseTo(10, 12);
    expect(steady_K).toBeCloseTo(10 / (1 - 0.0393), 12);
  });

  it('has no end from where the resistance grows faster than the joint cools: 254 K cold', () => {
    expect(jointRise_K(0.5, 127e-6, 2000).steady_K).not.toBeNull();
    expect(jointRise_K(0.5, 128e-6, 2000).steady_K).toBeNull();
  });

  const bar = { joint_resistance_ohm: 5e-6, joint_thermal_resistance_K_per_W: 0.5, resistance_ohm: 30e-6 };
  const links = ['L1', 'L2'].map((id) => ({ id, closed: true, thermal_time_s: 0, ...bar }));
  const bars = { links, tie: null, rackSegment: links[0], segment: links[0] } as never;
  const base = resultOf();
  const result = {
    ...base,
    recording: {
      ...base.recording,
      channels: ['L1', 'L2'].map((owner) => ({
        id: `${owner}.current_A`,
        kind: 'bar-current' as const,
        owner,
        unit: 'A' as const,
      })),
    },
    rounds: [],
    meanSquares: [
      { channel: 'L1.current_A', mean: 900, rms: 1000 },
      { channel: 'L2.current_A', mean: 500, rms: 600 },
    ],
  };

  it('is read off the RMS current of each bar', () => {
    const reading = readJointHeat(caseOf(scenarioOf({ bars }), demandOf(), result));
    expect(reading).toMatchObject({ node: 'L1', reason: 'a joint of 5 µΩ at 1000 A RMS, sustained' });
    expect(reading.value).toBeCloseTo(2.5 / (1 - 0.00393 * 2.5), 12);
  });

  const aged = (id: string, resistance_ohm: number) => [{ id, resistance_ohm }];

  it('takes what a joint has aged by as its own, and nothing that was planned and never came', () => {
    const events = [{ ...happens(5, 'joint-aged', 'L2'), amount: 130e-6 }];
    expect(readJointHeat(caseOf(scenarioOf({ bars, events }), demandOf(), result)).node).toBe('L1');
    const reading = readJointHeat(
      caseOf(scenarioOf({ bars }), demandOf(), { ...result, bars: aged('L2', 130e-6) }),
    );
    // 5 + 100 µΩ at 600 A: 37.8 W, 18.9 K cold.
    expect(reading.node).toBe('L2');
    expect(reading.value).toBeCloseTo(18.9 / (1 - 0.00393 * 18.9), 9);
  });

  it('says that it runs away', () => {
    const reading = readJointHeat(
      caseOf(scenarioOf({ bars }), demandOf(), { ...result, bars: aged('L1', 2.025e-3) }),
    );
    expect(reading.reason).toMatch(/^a joint of 2 mΩ at 1000 A RMS runs away/);
    expect(reading.value).toBeCloseTo(1000, 6);
  });
});

it('bank life is told and never judged: twice as long for ten kelvin less', () => {
  const bank = (ambient_degC: number) => ({
    id: 'K1',
    values: {
      ambient_degC,
      thermal_resistance_K_per_W: 1,
      esr_ohm: 4e-4,
      rated_life_s: 8766 * 3600,
      rated_life_temperature_degC: 65,
    },
  });
  const base = resultOf();
  const result = {
    ...base,
    recording: {
      ...base.recording,
      channels: [{ id: 'K1.current_A', kind: 'bank-current' as const, owner: 'K1', unit: 'A' as const }],
    },
    rounds: [],
    meanSquares: [{ channel: 'K1.current_A', mean: 0, rms: 50 }],
  };
  const told = (ambient: number) =>
    readBankLife(caseOf(scenarioOf({ banks: [bank(ambient)] as never }), demandOf(), result));
  // 1 W warms it by 1 K.
  expect(told(64)).toMatchObject({ node: 'K1', reportedOnly: true });
  expect(told(64).value).toBeCloseTo(8766 * 3600, 6);
  expect(told(64).reason).toContain('would last about 1 years (at 65 °C');
  expect(told(54).value).toBeCloseTo(2 * 8766 * 3600, 6);
  expect(told(54).reason).toContain('would last about 2 years (at 55 °C');
});

describe('the step that trays leave to the rectifiers', () => {
  const read = (changes: Readonly<Record<string, string>>) => {
    const list = Object.entries(changes).map(([path, value]) => ({ path, value }));
    const { report } = run(readShipped('scenarios/single-step.yaml', [], { changes: list }).scenario, null);
    return report.findings.find(({ id }) => id === 'tray-follows')!;
  };

  it('is next to none where they carry it', () => {
    expect(read({}).value).toBeLessThan(0.02);
  });

  it('is the step less what they can give where they are too few: 209 kW on nine trays of 20 kW', () => {
    const found = read({ 'load.before': '31 kW', 'load.after': '240 kW', 'trays.power_limit': '18 kW' });
    expect(found.verdict).toBe('fail');
    // 209 kW − 180 kW, less the hundredth that the smoothed load moves in 30 ms, over a mean between both levels.
    const left_W = Number(/^([\d.]+) kW/.exec(found.reason!)![1]) * 1e3;
    expect(left_W).toBeGreaterThan(24e3);
    expect(left_W).toBeLessThan(34e3);
  });

  it('does not arise without trays', () => {
    expect(readTrayFollows(caseOf(scenarioOf({ trays: [] }), demandOf(), resultOf()))).toMatchObject({
      value: null,
      reason: 'the cabinet has no trays',
    });
  });
});
