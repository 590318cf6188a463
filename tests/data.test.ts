import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { isQuantityName } from '../src/scenario/limit-quantities.ts';
import { toolVersion } from '../src/version.ts';
import { readShipped } from './scenario/shipped.ts';

const yamlIn = (folder: string): string[] =>
  readdirSync(new URL(`../${folder}`, import.meta.url)).filter((file) => file.endsWith('.yaml'));

const scenarios = yamlIn('scenarios').map((file) => `scenarios/${file}`);
const read = new Map(scenarios.map((file) => [file, readShipped(file)]));

describe('the data that comes with the project', () => {
  it('has scenarios', () => {
    expect(scenarios).toContain('scenarios/pulse-train.yaml');
  });

  it.each(scenarios)('%s is valid and draws no warning', (file) => {
    expect(read.get(file)!.warnings).toEqual([]);
    expect(read.get(file)!.scenario.about).not.toBe('');
    expect(read.get(file)!.scenario.expectation).not.toBe('');
  });

  it('uses every model, some in place of others, so that each is validated here', () => {
    const used = new Set(
      [...read.values()].flatMap(({ scenario }) => scenario.inputs.map(({ path }) => path)),
    );
    const swap = ['models/reference-cabinet.yaml', 'feeder-400v-50hz.yaml', 'feeder-480v-60hz.yaml'] as const;
    const variant = readShipped('scenarios/pulse-train.yaml', [swap]);
    expect(variant.scenario.feeders[0]?.values).toMatchObject({ line_voltage_V: 480, frequency_Hz: 60 });
    const bars = ['models/reference-cabinet.yaml', 'bars-copper.yaml', 'bars-by-dimensions.yaml'] as const;
    const copper = readShipped('scenarios/pulse-train.yaml', [bars]);
    const shelf = ['models/reference-cabinet.yaml', 'shelf-36kw.yaml', 'shelf-36kw-by-load.yaml'] as const;
    const byLoad = readShipped('scenarios/pulse-train.yaml', [shelf]);
    for (const { scenario } of [variant, copper, byLoad])
      for (const { path } of scenario.inputs) used.add(path);
    expect(yamlIn('models').filter((file) => !used.has(`models/${file}`))).toEqual([]);
  });

  it('states a source for every number of the models: what a unit holds is noted or written by the cabinet', () => {
    const { scenario, notes } = read.get('scenarios/pulse-train.yaml')!;
    let noted = 0;
    for (const [path, { file }] of scenario.origins) {
      if (!file.startsWith('models/') || path.startsWith('limits.')) continue;
      const note = notes.get(path);
      if (note === undefined) {
        expect(file, path).toBe('models/reference-cabinet.yaml');
        continue;
      }
      noted += 1;
      expect(note.why.length, path).toBeGreaterThan(8);
    }
    expect(noted).toBeGreaterThan(500);
  });

  it('judges only quantities that the limits know, each row with its source', () => {
    const { scenario } = read.get('scenarios/pulse-train.yaml')!;
    for (const row of scenario.limits) {
      expect(isQuantityName(row.quantity), row.id).toBe(true);
      expect(row.source).toMatch(/^(published|derived|assumed|measured): .{8,}/);
      const columns = [row.normal, row.carry, row.degraded];
      // A row is judged in its normal column at least, or reported only.
      if (row.normal === null) expect(columns, row.id).toEqual([null, null, null]);
    }
  });

  it('orders the bus limits: shorter stays may go further, degraded ones too, carrying never above normal', () => {
    const { scenario } = read.get('scenarios/pulse-train.yaml')!;
    for (const side of ['lower', 'upper'] as const) {
      const sign = side === 'lower' ? 1 : -1;
      const rows = scenario.limits
        .filter((row) => row.quantity === 'bus-stay' && row.side === side)
        .sort((a, b) => b.stay_s! - a.stay_s!);
      expect(rows.map(({ stay_s }) => stay_s)).toEqual([1, 0.02, 0.002, 0.0001, 0]);
      for (const column of ['normal', 'carry', 'degraded'] as const) {
        for (let k = 1; k < rows.length; k++) {
          expect(sign * (rows[k - 1]![column]! - rows[k]![column]!)).toBeGreaterThanOrEqual(0);
        }
      }
      // The next wider row of the normal column; the widest stays.
      const next = [...rows.slice(1), rows.at(-1)!].map(({ normal }) => normal);
      expect(rows.map(({ degraded }) => degraded)).toEqual(next);
    }
  });

  it('has one version, in the package file and in the tool', () => {
    const file = readFileSync(new URL('../package.json', import.meta.url), 'utf8');
    expect((JSON.parse(file) as { version: string }).version).toBe(toolVersion);
  });
});
