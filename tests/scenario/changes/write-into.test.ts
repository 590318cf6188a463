import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { writtenInto } from '../../../src/scenario/changes/write-into.ts';
import { readScenario } from '../../../src/scenario/read.ts';
import type { Change, Scenario } from '../../../src/scenario/scenario.ts';

/** What a run is made of: not where each value was written, nor how it was changed. */
function runs(scenario: Scenario): unknown {
  const {
    inputs: _i,
    origins: _o,
    changes: _c,
    alterations: _a,
    limits_basis: _l,
    warnings: _w,
    ...rest
  } = scenario;
  return rest;
}

const read = (file: string, text: string, changes: readonly Change[] = []): Scenario =>
  readScenario(file, {
    files: (path) => ({ text: path === file ? text : readFileSync(path, 'utf8'), sha256: '0' }),
    changes,
  }).scenario;

const set = (...words: string[]): Change[] =>
  words.map((word) => ({ path: word.split('=')[0]!, value: word.split('=').slice(1).join('=') }));

describe('writtenInto', () => {
  it.each([
    ['pulse-train', set('trays.capacitance=130 F', 'trays.count=8', 'duration=5 s', 'load.high=250 kW')],
    [
      'tray-out',
      set('events.add=ac-sag F1 to 70 % for 0.5 s at 6 s', 'events.add=tray-out T5 at 8 s', 'outage=yes'),
    ],
    ['pulse-train', set('events.add=bar-out LA1 at 5 s', 'ageing.trays=end-of-life', 'trays.T4.fitted=no')],
    // It states changes of its own; one of them is made again, behind another that it must stay behind.
    ['highest-share', set('firmware.share.mode=average', 'trays.T1.esr=3 mΩ', 'trays.esr=2 mΩ')],
    ['battery-empty', set('batteries.B1.control_delay=1 ms')],
  ])('%s runs like the scenario under the changes', (name, changes) => {
    const file = `scenarios/${name}.yaml`;
    const text = readFileSync(file, 'utf8');
    expect(runs(read(file, writtenInto(text, changes)))).toEqual(runs(read(file, text, changes)));
  });

  it('keeps comments, and lets the last change of a path stand', () => {
    const text = readFileSync('scenarios/pulse-train.yaml', 'utf8');
    const written = writtenInto(text, set('trays.esr=3 mΩ', 'trays.T1.esr=1 mΩ', 'trays.esr=2 mΩ'));
    expect(written).toContain('# In the periodic steady state of the pulse train');
    expect(written).toMatch(/changes:\n {2}trays\.T1\.esr: 1 mΩ\n {2}trays\.esr: 2 mΩ\n/);
  });

  it('keeps words that YAML would take for something else', () => {
    const text = readFileSync('scenarios/pulse-train.yaml', 'utf8');
    const changes = set('outage=yes', 'trays.T4.fitted=no', 'load.duty=7e-1');
    expect(runs(read('scenarios/pulse-train.yaml', writtenInto(text, changes)))).toEqual(
      runs(read('scenarios/pulse-train.yaml', text, changes)),
    );
  });
});
