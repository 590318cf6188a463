/** Units that take the values of another model. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { BadInput } from '../../../src/base/problem.ts';
import { readScenario } from '../../../src/scenario/read.ts';

const root = new URL('../../../', import.meta.url).pathname;
const large = `model: tray
title: a tray of 30 kW
like: tray-20kw.yaml
parameters:
  power_limit: { value: 30 kW, source: assumed, why: for this test }
`;

/** `files`: in place of those of the project. */
function read(changes: readonly string[], files: Readonly<Record<string, string>> = {}) {
  return readScenario('scenarios/bench-step.yaml', {
    files: (path) => {
      const text = { 'models/tray-30kw.yaml': large, ...files }[path] ?? readFileSync(root + path, 'utf8');
      return { text, sha256: '' };
    },
    changes: changes.map((change) => {
      const [path = '', value = ''] = change.split(' = ');
      return { path, value };
    }),
  });
}

function refused(work: () => unknown): string {
  try {
    work();
  } catch (error) {
    if (error instanceof BadInput) return error.message;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('the model of a unit', () => {
  it('is another one, of which all else is taken; other changes come on top, in whichever order', () => {
    const { scenario, models, paths } = read([
      'trays.T1.capacitance = 100 F',
      'trays.T1.model = models/tray-30kw.yaml',
    ]);
    expect(scenario.trays[0]!.values).toMatchObject({ power_limit_W: 30e3, capacitance_F: 100 });
    expect(models.get('trays.T1')).toEqual({ file: 'models/tray-30kw.yaml', title: 'a tray of 30 kW' });
    expect(paths).toContain('trays.T1.model');
    expect(scenario.inputs.map(({ path }) => path)).toContain('models/tray-30kw.yaml');
    expect(scenario.alterations.at(-1)).toMatchObject({
      path: 'trays.T1.model',
      from: 'models/tray-20kw.yaml',
    });
  });

  it('leaves what the cabinet file writes over it', () => {
    const cabinet = readFileSync(`${root}models/bench-cabinet.yaml`, 'utf8').replace(
      'units: [T1] }',
      'units: { T1: { capacitance: 120 F } } }',
    );
    const { scenario } = read(['trays.T1.model = models/tray-30kw.yaml'], {
      'models/bench-cabinet.yaml': cabinet,
    });
    expect(scenario.trays[0]!.values).toMatchObject({ power_limit_W: 30e3, capacitance_F: 120 });
  });

  it('of a file that is none, of another kind, or of no unit is refused', () => {
    expect(refused(() => read(['trays.T1.model = models/tray-31kw.yaml']))).toMatch(/models\/tray-31kw.yaml/);
    expect(refused(() => read(['trays.T1.model = models/shelf-36kw.yaml']))).toContain(
      'a model of kind shelf',
    );
    expect(refused(() => read(['trays.T7.model = models/tray-30kw.yaml']))).toMatch(/T7\n {2}expected {2}T1/);
  });

  it('in a scenario is named from its own folder', () => {
    const own = readFileSync(`${root}scenarios/bench-step.yaml`, 'utf8');
    const { scenario } = read([], {
      'scenarios/bench-step.yaml': `${own}\nchanges:\n  trays.T1.model: ../models/tray-30kw.yaml\n`,
    });
    expect(scenario.trays[0]!.values.power_limit_W).toBe(30e3);
  });
});
