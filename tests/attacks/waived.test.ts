/** A waiver is of a limit that was judged: it makes no judgement where there was none. */
import { describe, expect, it } from 'vitest';
import { run } from '../../src/run.ts';
import type { Changes } from '../engine/runs.ts';
import { readShipped } from '../scenario/shipped.ts';

function waived(name: string, limits: readonly string[], changes: Changes) {
  const { scenario } = readShipped(`scenarios/${name}.yaml`, [], {
    changes: Object.entries(changes).map(([path, value]) => ({ path, value })),
    waivers: limits.map((limit) => ({ limit, reason: 'agreed', by: 'reviewer', until: null })),
  });
  return run(scenario, null).report;
}

describe('a run that shows nothing of what was asked', () => {
  it.each([
    ['a step that never comes', 'single-step', ['trim'], { duration: '0.05 s' }],
    ['a ladder on its way up', 'step-ladder', ['ac-range-10s', 'flicker-pst'], { duration: '0.4 s' }],
    [
      'a step behind the end',
      'single-step',
      ['bus-floor', 'shelf-peak'],
      { 'load.at': '0.5 s', duration: '0.3 s' },
    ],
  ])('%s: waivers leave it inconclusive', (_what, name, limits, changes) => {
    const { verdict, findings } = waived(name, limits, changes);
    expect(verdict).toBe('inconclusive');
    for (const id of limits) {
      expect(findings.find((f) => f.id === id)).toMatchObject({
        verdict: 'waived',
        waived_from: 'inconclusive',
      });
    }
  });
});

it('a fail that is waived was judged', () => {
  const { verdict, findings } = waived('idle', ['trim'], { duration: '2 s', 'limits.trim.normal': '1 %' });
  expect(verdict).toBe('pass_with_conditions');
  expect(findings.find(({ id }) => id === 'trim')).toMatchObject({ verdict: 'waived', waived_from: 'fail' });
});
