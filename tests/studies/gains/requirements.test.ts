/** What a supplier must meet, read off the edges of an acceptable region. */
import { describe, expect, it } from 'vitest';
import { usualAcceptance } from '../../../src/studies/gains/accept.ts';
import type { Edge, Recommendation } from '../../../src/studies/gains/recommend.ts';
import { requirementsOf } from '../../../src/studies/gains/requirements.ts';
import { shipped } from '../../linear/scenario.ts';

const scenario = shipped('single-step');
const path = 'firmware.share.latency';

const edge = (side: Edge['side'], ms: number, beyond: string | null): Edge => ({
  path,
  side,
  value: ms / 1e3,
  text: `${ms} ms`,
  map_ends: beyond === null,
  beyond,
  factor: null,
});

function lineFor(below: Edge, above: Edge) {
  const recommended: Recommendation = {
    place: [3, 3],
    changes: [{ path, value: '5 ms' }],
    edges: [below, above],
    doubts: [],
  };
  return requirementsOf(scenario, recommended, usualAcceptance, null)[0]!;
}

describe('a requirement', () => {
  it.each([
    ['from 2 ms to 9 ms', edge('below', 2, '1 ms'), edge('above', 9, '10 ms')],
    ['at most 9 ms', edge('below', 1, null), edge('above', 9, '10 ms')],
    ['at least 2 ms', edge('below', 2, '1 ms'), edge('above', 10, null)],
  ])('is %s where the region ends there', (text, below, above) => {
    const line = lineFor(below, above);
    expect(line.text).toBe(text);
    expect(line.why).toBe('with 5 ms chosen, the region that is acceptable on the map ends there');
    expect(line.test).toContain(`expected ${text}, nominal 5 ms`);
  });

  it('claims no end where the map ends before the region', () => {
    const line = lineFor(edge('below', 1, null), edge('above', 10, null));
    expect(line.text).toBe('anything from 1 ms to 10 ms');
    expect(line.why).toBe('the whole map is acceptable along it; where that ends, a wider map would show');
  });

  it('on set points is the droop relation: ε = e (R_d + R_line) I_r N/(N − 1) over V', () => {
    const [line] = requirementsOf(scenario, null, usualAcceptance, null);
    const { values } = scenario.shelves[0]!;
    const rated_A = (values.module_count_count * values.module_power_W) / values.rated_voltage_V;
    // The finite gain of the loop adds a little to the droop at rest.
    const { path_resistance_ohm } = scenario.firmware.share;
    const least = (0.05 * (values.droop_ohm + path_resistance_ohm) * rated_A * (8 / 7)) / values.set_point_V;
    const said = Number(/±([\d.]+) %/.exec(line!.text)![1]) / 100;
    expect(said / least).toBeGreaterThan(0.97);
    expect(said / least).toBeLessThan(1.1);
  });
});
