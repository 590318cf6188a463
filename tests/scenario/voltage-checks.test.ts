/** Parts of one bus in a cabinet of another: refused all at once, each by its own number, with the place where it is written. */
import { describe, expect, it } from 'vitest';
import { BadInput, type Problem } from '../../src/base/problem.ts';
import { readShipped } from './shipped.ts';

function problemsOf(scenario: string, changes: Readonly<Record<string, string>>): readonly Problem[] {
  const list = Object.entries(changes).map(([path, value]) => ({ path, value }));
  try {
    return readShipped(`scenarios/${scenario}.yaml`, [], { changes: list }).warnings;
  } catch (error) {
    if (error instanceof BadInput) return error.problems;
    throw error;
  }
}

const errorsOf = (scenario: string, nominal: string): readonly Problem[] =>
  problemsOf(scenario, { nominal }).filter(({ severity }) => severity === 'error');

const placed = ({ file, line, path, found }: Problem): readonly unknown[] => [file, line, path, found];

describe('parts that belong on a bus of another voltage', () => {
  it('are refused where 50 V parts stand at 400 V, all at once and each where it is written', () => {
    expect(errorsOf('pulse-train', '400 V').map(placed)).toEqual([
      ['models/shelf-36kw.yaml', 14, 'shelves.S1.rated_voltage', '50 V'],
      ['models/shelf-36kw.yaml', 17, 'shelves.S1.set_point', '50.25 V'],
      ['models/battery-60kw.yaml', 10, 'batteries.B1.rated_voltage', '50 V'],
      ['models/bank-80mf.yaml', 13, 'banks.K1.rated_voltage', '63 V'],
      ['models/sled-15kw.yaml', 14, 'sleds.sled-1.constant_power_voltage', '44 V'],
      ['models/sled-15kw.yaml', 15, 'sleds.sled-1.cut_off_voltage', '42 V'],
      ['models/sled-15kw.yaml', 17, 'sleds.sled-1.restart_voltage', '45 V'],
      [
        'models/tray-20kw.yaml',
        expect.any(Number),
        'trays.T1.bus_current_limit',
        '420 A, which is power_limit at 47.6 V, with an output_capacitance of 2 mF',
      ],
      ['models/firmware-reference.yaml', 33, 'firmware.handover.trigger_voltage', '48.5 V'],
      ['models/firmware-reference.yaml', 36, 'firmware.handover.set_point_on_loss', '50.25 V'],
      ['models/firmware-reference.yaml', 37, 'firmware.handover.set_point_asleep', '49.2 V'],
    ]);
    expect(errorsOf('pulse-train', '400 V')[0]).toMatchObject({
      expected: '300 V to 533.3 V, as fits a bus of nominal 400 V',
      mend: 'take a part made for this bus, or write the nominal voltage of the parts',
    });
  });

  it('are refused the other way round, but for a bank that bears more', () => {
    for (const [scenario, nominal] of [
      ['pulse-train-400v', '50 V'],
      ['pulse-train-800v', '400 V'],
    ] as const) {
      const paths = errorsOf(scenario, nominal).map(({ path }) => path);
      for (const path of [
        'shelves.S1.rated_voltage',
        'shelves.S1.set_point',
        'batteries.B1.rated_voltage',
        'sleds.sled-1.cut_off_voltage',
        'firmware.handover.trigger_voltage',
      ])
        expect(paths).toContain(path);
      expect(paths).not.toContain('banks.K1.rated_voltage');
    }
  });

  it('a tray tells by the voltage at which its two limits meet, as a warning: one of them may be loose', () => {
    const trays = problemsOf('pulse-train-400v', { 'trays.bus_current_limit': '420 A' }).filter(
      ({ path }) => path?.startsWith('trays.') === true,
    );
    expect(trays).toHaveLength(1);
    expect(trays[0]).toMatchObject({ severity: 'warning', found: '420 A, which is power_limit at 47.6 V' });
  });

  it('a tray whose output capacitor is of another bus as well is refused', () => {
    const found = '420 A, which is power_limit at 47.6 V, with an output_capacitance of 2 mF';
    const model = 'models/tray-20kw.yaml';
    expect(problemsOf('pulse-train-400v', { 'trays.T1.model': model })).toContainEqual(
      expect.objectContaining({ severity: 'error', path: 'trays.T1.bus_current_limit', found }),
    );
  });

  it('what is usual goes with the bus', () => {
    const warned = (scenario: string): readonly string[] =>
      problemsOf(scenario, { 'shelves.output_capacitance': '1 mF' })
        .filter(({ severity }) => severity === 'warning')
        .map(({ expected }) => expected ?? '');
    expect(warned('pulse-train')).toEqual(['usually 5 mF to 30 mF on a bus of 50 V (output capacitor)']);
    expect(warned('pulse-train-400v')).toEqual([
      'usually 78.125 µF to 468.75 µF on a bus of 400 V (output capacitor)',
    ]);
    expect(problemsOf('pulse-train-800v', {})).toEqual([]);
  });

  it('what holds where nobody wrote it goes with the bus', () => {
    const of = (scenario: string, path: string) =>
      readShipped(`scenarios/${scenario}.yaml`, []).cells.get(path)?.value;
    expect(of('pulse-train', 'sleds.sled-1.suppressor_resistance')).toBe(0.02);
    expect(of('pulse-train-400v', 'sleds.sled-1.suppressor_resistance')).toBeCloseTo(1.28, 12);
  });
});
