/** Who reads the same documents again reads what a first reading gives, whatever was changed in between. */
import { expect, it } from 'vitest';
import { readTextFile } from '../../src/disk/read-file.ts';
import { type ReadScenario, readScenario } from '../../src/scenario/read.ts';
import type { Change } from '../../src/scenario/scenario.ts';
import type { Branch } from '../../src/scenario/text/document.ts';

const file = new URL('../../scenarios/single-step.yaml', import.meta.url).pathname;
const trees = new Map<string, Branch>();
const read = (changes: readonly Change[], kept?: Map<string, Branch>): ReadScenario =>
  readScenario(file, { files: readTextFile, changes, ...(kept === undefined ? {} : { trees: kept }) });

it.each([
  [[]],
  [[{ path: 'limits.bus-floor.normal', value: '0.5' }]],
  [[{ path: 'trays.T2.capacitance', value: '120 F' }]],
  [[]],
])('with %j', (changes) => {
  const [again, first] = [read(changes, trees), read(changes)];
  expect(again.scenario).toEqual(first.scenario);
  expect(again.cells).toEqual(first.cells);
  expect(again.paths).toEqual(first.paths);
});

it('a fault in a limits file is told each time', () => {
  const spoilt = (path: string): ReturnType<typeof readTextFile> => {
    const text = readTextFile(path);
    return path.endsWith('limits-default.yaml') && text.text !== null
      ? { ...text, text: text.text.replace('side: lower', 'side: below') }
      : text;
  };
  const own = new Map<string, Branch>();
  for (let k = 0; k < 2; k++)
    expect(() => readScenario(file, { files: spoilt, trees: own })).toThrow(/did you mean lower|below/);
});
