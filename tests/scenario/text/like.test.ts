/** A model that is like another states what differs; the rest, with its source and its place, is the other's. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { BadInput } from '../../../src/base/problem.ts';
import { type ReadScenario, readScenario } from '../../../src/scenario/read.ts';
import type { Change } from '../../../src/scenario/scenario.ts';

const root = new URL('../../../', import.meta.url).pathname;

/** The bench with its trays made of `models/own.yaml`, beside files of the test's own. */
function read(own: Readonly<Record<string, string>>, changes: readonly Change[] = []): ReadScenario {
  return readScenario('scenarios/pulse-train.yaml', {
    changes,
    files: (path) => {
      let text = own[path] ?? readFileSync(root + path, 'utf8');
      if (path === 'models/reference-cabinet.yaml') text = text.replace('tray-20kw.yaml', 'own.yaml');
      return { text, sha256: createHash('sha256').update(text).digest('hex') };
    },
  });
}

function refused(own: Readonly<Record<string, string>>): string {
  try {
    read(own);
  } catch (error) {
    if (error instanceof BadInput) return error.message;
    throw error;
  }
  throw new Error('nothing was refused');
}

const tray = (like: string, ...lines: readonly string[]) =>
  ['model: tray', 'title: own', `like: ${like}`, ...lines, ''].join('\n');

const larger = '  capacitance: { value: 200 F, source: assumed, why: larger cells }';

describe('a model that is like another', () => {
  it('has the values of the other but for its own, each with its own source and place', () => {
    const made = read({ 'models/own.yaml': tray('tray-20kw.yaml', 'parameters:', larger) });
    const { values } = made.scenario.trays[3]!;
    expect([values.capacitance_F, values.esr_ohm]).toEqual([200, 2.4e-3]);
    const at = (key: string) => made.scenario.origins.get(`trays.T4.${key}`);
    expect(at('capacitance')).toMatchObject({ file: 'models/own.yaml', line: 5 });
    expect(at('esr')?.file).toBe('models/tray-20kw.yaml');
    expect(made.notes.get('trays.T4.esr')?.end_of_life).toBe(4.8e-3);
    expect(made.notes.get('trays.T4.capacitance')?.why).toBe('larger cells');
  });

  it('goes through a chain, whose files are all inputs; changes reach it by the same paths', () => {
    const own = {
      'models/own.yaml': tray('between.yaml'),
      'models/between.yaml': tray('tray-20kw.yaml', 'parameters:', larger),
    };
    const made = read(own, [{ path: 'trays.T4.esr', value: '2 mΩ' }]);
    expect(made.scenario.trays[3]!.values).toMatchObject({ capacitance_F: 200, esr_ohm: 2e-3 });
    const files = made.scenario.inputs.map(({ path }) => path);
    expect(files).toEqual(
      expect.arrayContaining(['models/own.yaml', 'models/between.yaml', 'models/tray-20kw.yaml']),
    );
  });

  it('is refused at file, line and column wherever in the chain it is wrong', () => {
    const own = {
      'models/own.yaml': tray('between.yaml', 'parameters:', '  capacitence: { value: 200 F }'),
      'models/between.yaml': tray('tray-20kw.yaml', 'parameters:', larger.replace('200 F', '200 V')),
    };
    expect(refused(own)).toMatchInlineSnapshot(`
      "models/between.yaml:5:25  capacitance
        found     200 V, which is a voltage
        expected  a capacitance, for example 22 mF
        mend      write it like 22 mF
      models/own.yaml:5:3  capacitence
        found     key capacitence
        expected  one of 36 keys
        mend      did you mean capacitance?
      2 problems in 2 files. Nothing was run."
    `);
  });

  it('is refused where the other is missing, or of another kind', () => {
    expect(refused({ 'models/own.yaml': tray('tray-20kw') })).toMatch(
      /^models\/own.yaml:3:7 {2}like\n {2}found {5}no file /m,
    );
    expect(refused({ 'models/own.yaml': tray('bank-80mf.yaml') })).toMatch(
      /^models\/bank-80mf.yaml:\d+:8 {2}model\n {2}found {5}a model of kind bank\n {2}expected {2}a model of kind tray/m,
    );
  });

  it('names the circle in which it goes', () => {
    const own = {
      'models/own.yaml': tray('b.yaml'),
      'models/b.yaml': tray('c.yaml'),
      'models/c.yaml': tray('b.yaml'),
    };
    expect(refused(own)).toMatch(
      /^models\/c.yaml:3:7 {2}like\n {2}found {5}a circle: models\/b.yaml → models\/c.yaml → models\/b.yaml\n/m,
    );
  });
});
