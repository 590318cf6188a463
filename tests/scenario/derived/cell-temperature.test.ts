/**
 * Capacitance and resistance of cells at a temperature, by hand from the slopes of the tray's model: a twentieth less and half as
 * much again at 0 °C (assumed), 0.4 % a kelvin above 25 °C, where IEC 62576 measures (from memory). Age and temperature once each.
 */
import { describe, expect, it } from 'vitest';
import { shippedWith } from '../../engine/runs.ts';
import { readShipped } from '../shipped.ts';

const cell = (changes: Record<string, string>) => {
  const { capacitance_F, esr_ohm } = shippedWith('single-step', changes).trays[0]!.values;
  return [capacitance_F / 162.5, esr_ohm / 2.4e-3] as const;
};

describe('cells at a temperature', () => {
  it.each([
    ['25 °C', 1, 1],
    ['0 °C', 0.95, 1.5],
    ['-20 °C', 0.91, 1.9],
    ['50 °C', 1, 0.9],
  ])('of %s', (degC, C, R) => {
    const found = cell({ 'trays.cell_temperature': degC });
    expect(found[0]).toBeCloseTo(C, 12);
    expect(found[1]).toBeCloseTo(R, 12);
  });

  it('are as new to the bit where nothing is said', () => {
    const { capacitance_F, esr_ohm } = shippedWith('single-step').trays[0]!.values;
    expect([capacitance_F, esr_ohm]).toEqual([162.5, 2.4e-3]);
  });

  it('are old and cold once each, whichever way the cold is asked for', () => {
    const old = { 'ageing.trays': 'end-of-life' };
    for (const cold of [{ 'trays.cell_temperature': '0 °C' }, { 'temperature.trays': 'cold' }]) {
      const [C, R] = cell({ ...cold, ...old });
      expect(C).toBeCloseTo(0.8 * 0.95, 12);
      expect(R).toBeCloseTo(2 * 1.5, 12);
    }
  });

  it('of one tray alone, and what a change writes stays what is written', () => {
    const changes = [
      { path: 'trays.T2.cell_temperature', value: '0 °C' },
      { path: 'trays.capacitance', value: '100 F' },
    ];
    const read = readShipped('scenarios/single-step.yaml', [], { changes });
    expect(read.scenario.trays.slice(0, 2).map(({ values }) => values.capacitance_F)).toEqual([100, 95]);
    expect(read.cells.get('trays.T2.capacitance')).toMatchObject({ value: 95, written: 100 });
  });
});

describe('a slow branch', () => {
  it.each([
    [
      { 'trays.slow_share': '10 %' },
      /trays.slow_share\n {2}found {5}10 % with a slow_time of 0 s\n.*at least 10 ms/,
    ],
    [{ 'banks.slow_time': '1 s' }, /banks.slow_time\n {2}found {5}1 s with a slow_share of 0 %\n.*above 0/],
    [{ 'trays.slow_share': '10 %', 'trays.slow_time': '1 ms' }, /10 % with a slow_time of 1 ms/],
  ])('is a share and a time that steps can follow: %o', (changes, words) => {
    expect(() => shippedWith('single-step', changes)).toThrow(words);
  });

  it('is of the whole capacitance: that of a tray stays as a slow discharge shows it', () => {
    const { values } = shippedWith('single-step', { 'trays.slow_share': '10 %', 'trays.slow_time': '1 s' })
      .trays[0]!;
    expect(values.capacitance_F).toBe(162.5);
  });
});
