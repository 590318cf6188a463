/**
 * The line voltage judged. On a steady load simulation and estimate are one equation, so their findings agree; twenty
 * cabinets are told; what a short window leaves open passes only where the shelves' own power limits settle it.
 */
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../src/analysis/judge/report.ts';
import { run } from '../../../src/run.ts';
import { shippedWith } from '../../engine/runs.ts';
import { weakFeeder } from '../../engine/weak-feeder.ts';

const supply = ['supply-voltage-slow', 'supply-voltage-1s', 'supply-fall', 'supply-loading'];

function findings(scenario: Parameters<typeof run>[0]): Map<string, Finding> {
  const { report } = run(scenario, null);
  return new Map(report.findings.filter(({ id }) => supply.includes(id)).map((one) => [one.id, one]));
}

const steady = (changes: Readonly<Record<string, string>>) =>
  findings(weakFeeder(5, { load: '{ kind: constant, power: 8 kW }', duration: '40 ms', changes }));

describe('the line voltage', () => {
  it('is judged alike where it is simulated and where it is estimated', () => {
    const [simulated, estimated] = [steady({}), steady({ 'feeders.gives_way': '0' })];
    for (const id of supply) {
      expect(simulated.get(id)!.value! / estimated.get(id)!.value!, id).toBeCloseTo(1, 6);
      expect(simulated.get(id)!.reason).toContain('simulated');
      expect(estimated.get(id)!.reason).toContain('estimated');
    }
    // 8.2 kW of the 16.7 kW that are the most.
    expect(simulated.get('supply-loading')!.value).toBeCloseTo(0.493, 2);
  });

  it('is not passed on a short window where a fuller load would take it further', () => {
    const strong = steady({ 'feeders.short_circuit_power': '10 MVA' });
    for (const id of supply) expect(strong.get(id)!.verdict, id).toBe('pass');
    const weaker = steady({ 'feeders.short_circuit_power': '150 kVA' });
    expect(weaker.get('supply-fall')).toMatchObject({ verdict: 'inconclusive' });
    expect(weaker.get('supply-fall')!.reason).toMatch(/requires 600 s/);
  });

  it('fails where the supply collapses, by more than it carries', () => {
    const told = findings(
      weakFeeder(5, {
        load: '{ kind: step, before: 16 kW, after: 17 kW, at: 10 ms, edge: 5 ms }',
        duration: '40 ms',
      }),
    );
    const loading = told.get('supply-loading')!;
    expect(loading.verdict).toBe('fail');
    expect(loading.value).toBeGreaterThan(1);
    expect(loading.reason).toMatch(/it collapsed/);
    expect(loading.chain.at(-1)).toMatch(/supply collapse: /);
  });

  it('of a stiff run tells what twenty cabinets do to the supply', () => {
    const changes = { duration: '4 s', cabinets_on_feeder: '20' };
    const one = findings(shippedWith('pulse-train', { duration: '4 s' }));
    const twenty = findings(shippedWith('pulse-train', changes));
    for (const id of supply) expect(one.get(id)!.verdict, id).toBe('pass');
    expect(twenty.get('supply-fall')!.verdict).toBe('fail');
    expect(twenty.get('supply-fall')!.value).toBeGreaterThan(0.07);
    expect(twenty.get('supply-fall')!.reason).toContain('20 cabinets');
  });
});
