/**
 * The cases that a share loop is put to: spread set points, sensors that differ, a faulty one, frames that are lost, no
 * quantum, no dead band, a shelf that leaves or joins, ratings that differ.
 */
import { formatQuantity } from '../../base/quantity.ts';
import type { Change, Scenario } from '../../scenario/scenario.ts';
import type { Happening } from './happenings.ts';

export interface ShareCase {
  readonly name: string;
  readonly changes: readonly Change[];
  readonly happens: Happening | null;
  readonly look_s: number;
}

const usualLook_s = 5;

export function casesOf(scenario: Scenario): readonly ShareCase[] {
  const at = (
    name: string,
    { changes = [], happens = null, look_s = usualLook_s }: Partial<Omit<ShareCase, 'name'>> = {},
  ): ShareCase => ({ name, changes, happens, look_s });
  const noDeadBand = { path: 'firmware.share.dead_band', value: '0 %' };
  const quantum = (value: string): Change => ({ path: 'firmware.share.trim_quantum', value });
  return [
    at('as it is'),
    at('set points ±0.25 %, alternating', { changes: alternating(scenario) }),
    at('sensors ±1 %, alternating', { happens: 'sensors differ' }),
    at('one sensor reads 10 % high', { happens: 'a sensor reads high' }),
    at('one sensor reads nothing', { happens: 'a sensor reads nothing' }),
    at('nine frames of ten lost, the last one kept', { happens: 'most frames lost' }),
    at('all frames lost, the last one kept', { happens: 'all frames lost' }),
    at('no quantum', { changes: [quantum('0 V')] }),
    at('no dead band', { changes: [noDeadBand] }),
    at('no dead band, quantum 50 mV', { changes: [noDeadBand, quantum('50 mV')] }),
    at('a shelf leaves', { happens: 'a shelf leaves' }),
    at('a shelf joins, walking in', {
      happens: 'a shelf joins',
      look_s: joining_s(scenario) + usualLook_s,
    }),
    at('one shelf of three modules, droop to match', { changes: threeModules(scenario, true) }),
    at('one shelf of three modules, droop as the others', { changes: threeModules(scenario, false) }),
  ];
}

function alternating({ shelves }: Scenario): readonly Change[] {
  return shelves.map(({ id }, k) => ({
    path: `shelves.${id}.set_point_offset`,
    value: k % 2 === 0 ? '0.25 %' : '-0.25 %',
  }));
}

/** From AC to full power: the shelf's wait and its walk-in. */
function joining_s({ shelves }: Scenario): number {
  const values = shelves[0]!.values;
  return values.start_delay_s + values.walk_in_s;
}

/** Half a shelf, its gains in proportion; its droop too, so that it takes half the current, or not. */
function threeModules({ shelves }: Scenario, isMatched: boolean): readonly Change[] {
  const { id, values } = shelves[0]!;
  const ratio = 3 / values.module_count_count;
  const own = (path: string, value: string): Change => ({ path: `shelves.${id}.${path}`, value });
  const { proportional_gain_A_per_V, integral_gain_A_per_Vs, droop_ohm } = values;
  return [
    own('module_count', '3'),
    own('proportional_gain', formatQuantity(proportional_gain_A_per_V * ratio, 'voltage_gain')),
    own('integral_gain', formatQuantity(integral_gain_A_per_Vs * ratio, 'integral_gain')),
    ...(isMatched ? [own('droop', formatQuantity(droop_ohm / ratio, 'resistance'))] : []),
  ];
}
