/** Age and temperature come on top of whatever else is asked for; by the tray's model 80 % and 200 %, cold 95 % and 150 %. */
import { describe, expect, it } from 'vitest';
import { writtenInto } from '../../../src/scenario/changes/write-into.ts';
import type { Scenario } from '../../../src/scenario/scenario.ts';
import { readShipped } from '../shipped.ts';

const file = 'scenarios/single-step.yaml';

function changed(...pairs: readonly string[]): Scenario {
  return readShipped(file, [], { changes: asChanges(pairs) }).scenario;
}

function asChanges(pairs: readonly string[]): { path: string; value: string }[] {
  return pairs.map((pair) => {
    const [path = '', value = ''] = pair.split(' = ');
    return { path, value };
  });
}

const farads = ({ trays }: Scenario, k = 0): number => trays[k]!.values.capacitance_F;

describe('a part in a state', () => {
  it('ages what a change made of its values, in either order', () => {
    const before = changed('ageing.trays = end-of-life', 'trays.capacitance = 200 F');
    const after = changed('trays.capacitance = 200 F', 'ageing.trays = end-of-life');
    expect(before.trays.map(({ values }) => values.capacitance_F)).toEqual(Array(10).fill(160));
    expect(after.trays).toEqual(before.trays);
  });

  it('ages what the cabinet file writes over a model', () => {
    const own = [
      'models/reference-cabinet.yaml',
      'units: [T1, T2, T3, T4, T5, T6, T7, T8, T9, T10]',
      'units: { T1: { capacitance: 100 F }, T2: , T3: , T4: , T5: , T6: , T7: , T8: , T9: , T10: }',
    ] as const;
    const changes = asChanges(['ageing.T1 = end-of-life', 'ageing.T2 = mid-life']);
    const { scenario } = readShipped(file, [own], { changes });
    expect([0, 1, 2].map((k) => farads(scenario, k))).toEqual([80, 146.25, 162.5]);
  });

  it('is old and cold at once', () => {
    const both = changed('temperature.trays = cold', 'ageing.trays = end-of-life', 'trays.esr = 1 mΩ');
    expect(farads(both)).toBeCloseTo(162.5 * 0.8 * 0.95, 9);
    expect(both.trays[0]!.values.esr_ohm).toBeCloseTo(1e-3 * 2 * 1.5, 12);
  });

  it('moves temperatures by a difference, and bars as one kind', () => {
    const hot = changed(
      'trays.coolant_temperature = 40 °C',
      'temperature.trays = hot',
      'temperature.bars = hot',
    );
    expect(hot.trays[0]!.values.coolant_temperature_degC).toBe(55);
    expect(hot.bars.segment.resistance_ohm).toBe(16.8e-6);
    expect(hot.bars.links.map(({ resistance_ohm }) => resistance_ohm)).toEqual(Array(4).fill(33.6e-6));
  });

  it('is taken back by a later change, for one unit too', () => {
    const one = changed('ageing.trays = end-of-life', 'ageing.T4 = new');
    expect([farads(one, 2), farads(one, 3)]).toEqual([130, 162.5]);
  });

  it('tells what it makes of the values', () => {
    const [, state] = changed('trays.capacitance = 200 F', 'ageing.trays = end-of-life').alterations;
    expect(state).toMatchObject({
      path: 'ageing.trays',
      to: 'end-of-life',
      makes: 'trays.capacitance 200 F → 160 F, trays.esr 2.4 mΩ → 4.8 mΩ',
    });
  });

  it('refuses a value that no part can have, and warns of a state that alters nothing', () => {
    expect(() => changed('trays.esr = 9 Ω', 'ageing.trays = end-of-life')).toThrow(
      /trays.esr\n {2}found {5}18 Ω\n {2}expected {2}a resistance of at most 10 Ω/,
    );
    const { warnings } = readShipped(file, [], { changes: asChanges(['ageing.sleds = end-of-life']) });
    expect(warnings).toMatchObject([
      { path: 'ageing.sleds', found: 'end-of-life, of which the models state nothing' },
    ]);
  });

  it('is written into the section of its kind', () => {
    const text = writtenInto('title: x\n', asChanges(['temperature.T4 = cold', 'ageing.trays = mid-life']));
    expect(text).toBe('title: x\ntemperature:\n  T4: cold\nageing:\n  trays: mid-life\n');
  });
});
