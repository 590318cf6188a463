/** What is told of changes is what holds in the end, and what the files say. */
import { describe, expect, it } from 'vitest';
import { readShipped, type Swap } from '../shipped.ts';

const file = 'scenarios/pulse-train.yaml';

/** Path, from and to of each that is told. */
function told(changes: readonly (readonly [string, string])[], swaps: readonly Swap[] = []) {
  const { scenario } = readShipped(file, swaps, {
    changes: changes.map(([path, value]) => ({ path, value })),
  });
  return scenario.alterations.map(({ path, from, to }) => [path, from, to]);
}

const inFile = (path: string, value: string): Swap => [
  file,
  'duration:',
  `changes:\n  ${path}: ${value}\nduration:`,
];

describe('a change that later ones write over', () => {
  it('is not told: one unit by its kind, and a path by itself, with what the files say before', () => {
    expect(
      told([
        ['trays.T1.capacitance', '60 F'],
        ['trays.capacitance', '300 F'],
      ]),
    ).toEqual([['trays.capacitance', '162.5 F', '300 F']]);
    expect(
      told([
        ['rated', '200 kW'],
        ['rated', '230 kW'],
      ]),
    ).toEqual([['rated', '240 kW', '230 kW']]);
  });

  it('is told where some of it holds', () => {
    expect(
      told([
        ['trays.capacitance', '300 F'],
        ['trays.T1.capacitance', '60 F'],
      ]),
    ).toEqual([
      ['trays.capacitance', '162.5 F', '300 F'],
      ['trays.T1.capacitance', '162.5 F', '60 F'],
    ]);
  });

  it('unit by unit, until none of it holds', () => {
    const shelves = Array.from({ length: 8 }, (_, k) => [`shelves.S${k + 1}.droop`, '1.1 mΩ'] as const);
    expect(told([['shelves.droop', '1 mΩ'], ...shelves]).map(([path]) => path)).toEqual(
      shelves.map(([path]) => path),
    );
    expect(told([['shelves.droop', '1 mΩ'], ...shelves.slice(1)])).toHaveLength(8);
  });

  it('in the scenario is one of the files, which an option starts from', () => {
    expect(told([['rated', '230 kW']], [inFile('rated', '220 kW')])).toEqual([['rated', '220 kW', '230 kW']]);
  });

  it('of a state of parts, a count or a model likewise', () => {
    expect(
      told([
        ['ageing.T4', 'mid-life'],
        ['ageing.trays', 'end-of-life'],
      ]).map(([path]) => path),
    ).toEqual(['ageing.trays']);
    expect(
      told([
        ['ageing.trays', 'end-of-life'],
        ['ageing.T4', 'new'],
      ]).map(([path]) => path),
    ).toEqual(['ageing.trays', 'ageing.T4']);
    expect(
      told([
        ['trays.count', '8'],
        ['trays.count', '9'],
      ]),
    ).toEqual([['trays.count', null, '9']]);
    expect(
      told([
        ['trays.T4.model', 'models/tray-20kw.yaml'],
        ['trays.T4.model', 'models/tray-20kw.yaml'],
      ]),
    ).toHaveLength(1);
  });

  it('of several kinds of state each counts', () => {
    expect(
      told([
        ['ageing.trays', 'end-of-life'],
        ['temperature.trays', 'cold'],
      ]),
    ).toHaveLength(2);
  });
});

it('tells of a start that is stated beside a recorded load what the scenario says, not what the load makes of it', () => {
  const { scenario } = readShipped('scenarios/mirror.yaml', [], {
    changes: [{ path: 'start', value: 'settled' }],
    recorded: {
      file: 'scenarios/loads/training-two-accelerators-50hz.csv',
      to: '30 s',
      peak: '200 kW',
      'reading.at': 'device',
      'reading.side': 'dc',
    },
  });
  expect(scenario.alterations).toMatchObject([{ path: 'start', from: 'converged-cycle', to: 'settled' }]);
});
