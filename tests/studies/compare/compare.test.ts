import { describe, expect, it } from 'vitest';
import { DiskSource } from '../../../src/bundle/disk-source.ts';
import { compareText } from '../../../src/cli/commands/compare.ts';
import { run } from '../../../src/run.ts';
import { Shelf } from '../../../src/studies/bench/shelf.ts';
import { compare, type KeptRun } from '../../../src/studies/compare/compare.ts';
import { changes } from '../here.ts';

const shelf = new Shelf(new DiskSource());

function kept(...pairs: readonly string[]): KeptRun {
  const { scenario } = shelf.read({
    scenario: 'scenarios/single-step.yaml',
    changes: changes('duration = 0.62 s', ...pairs),
  });
  return { scenario, report: run(scenario, null).report };
}

const plain = kept();

function textOf(after: KeptRun): string {
  return compareText(compare(plain, after), (_, words) => words);
}

describe('compare()', () => {
  it('tells what became of the cabinet, and a verdict that turned', () => {
    const text = textOf(kept('events.add = shelf-trip S4 at 0.05 s'));
    expect(text).toMatch(/ {2}outcome: steady \(.+\) → (tripped|degraded) \(.*S4.*\)/);
  });

  it('tells another status, without which a verdict is none', () => {
    const open: KeptRun = {
      ...plain,
      report: { ...plain.report, status: 'audit_open', verdict: 'inconclusive' },
    };
    const text = textOf(open);
    expect(text).toContain('  status: ok → audit open');
    expect(text).toMatch(/ {2}verdict: pass( with conditions)? → inconclusive/);
  });

  it('tells runs that were judged over different times, and nothing of those that were not', () => {
    const { report } = plain;
    const other = (from: number, to: number): string =>
      textOf({ ...plain, report: { ...report, window_s: { from, to } } }).replaceAll('\n    ', ' ');
    expect(other(0, 0.31)).toContain(
      '  judged over 620 ms (from 0 s to 620 ms) → 310 ms (from 0 s to 310 ms): extremes, means and what a window',
    );
    expect(other(0.1, 0.72)).toContain(': other moments of the load are compared');
    expect(textOf(plain)).not.toContain('judged over');
  });

  it('tells what the verdict rests on now, and no longer', () => {
    const relaxed = kept('limits.bus-floor.normal = none', 'outage = yes');
    expect(textOf(relaxed)).toMatch(/ {2}now rests on: .*bus-floor/);
    const back = compareText(compare(relaxed, plain), (_, words) => words);
    expect(back).toMatch(/ {2}no longer rests on: .*bus-floor/);
  });

  it('shows changed values with their units, units that changed alike once, and metrics in words', () => {
    const text = textOf(kept('trays.capacitance = 130 F', 'trays.T4.capacitance = 120 F'));
    expect(text).toContain('  trays.capacitance, 9 units: 162.5 F → 130 F\n');
    expect(text).toContain('  trays.T4.capacitance: 162.5 F → 120 F\n');
    expect(text).toMatch(/ {2}tray charge, lowest +[\d.]+ % +[\d.]+ % +[+-]/);
    expect(text).not.toMatch(/\w_(A|V|W|F|ratio)\b/);
  });

  it('tells value, limit and headroom as every report does, below a limit as above one', () => {
    const text = textOf(kept('trays.capacitance = 130 F'));
    expect(text).toMatch(
      / {2}tray-charge-low: pass [\d.]+ % \(at least 5 %\), headroom \d+ % → pass [\d.]+ % \(at least 5 %\)/,
    );
    expect(text).not.toContain('times the limit');
    // What passes on both sides is told by no word of a violation.
    const passes = text.split('\n').filter((line) => /: pass .* → pass /.test(line));
    expect(passes.length).toBeGreaterThan(1);
    for (const line of passes) expect(line).not.toMatch(/against|beyond|exceed|fail|headroom -/);
  });

  it('shows no difference that only later digits have, and says how many there are', () => {
    const [first] = plain.report.findings;
    const moved = { ...first!, value: first!.value! * (1 + 1e-9) };
    const nearly: KeptRun = {
      ...plain,
      report: { ...plain.report, findings: [moved, ...plain.report.findings.slice(1)] },
    };
    const text = textOf(nearly);
    expect(text).toContain('no input changed');
    expect(text).not.toContain('changed headroom');
    expect(text).toMatch(/\nalike but for later digits: 1 number; --json lists them$/);
  });

  it('tells nothing of a run beside itself', () => {
    const { basis, inputs, metrics, findings } = compare(plain, plain);
    expect([basis.gone, basis.come, inputs, metrics, findings]).toEqual([[], [], [], [], []]);
  });
});
