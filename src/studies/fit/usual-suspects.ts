/** Parameters that are not adjusted, that a misfit is tried on and that found values may rest on. */
import type { ReadScenario } from '../../scenario/read.ts';
import { overlap } from '../written/overlap.ts';
import { type Adjusted, oneOf } from './adjusted.ts';

/**
 * Each with how far its value may be off where no model states a range, as a share of it. Assumed: capacitors are bought
 * to ± 20 %, their series resistance and a contact are known to half, a load is set to ± 5 %, losses are known to a fifth.
 */
const usual: readonly (readonly [path: string, off: number])[] = [
  ['shelves.droop', 0.1],
  ['shelves.set_point', 0.005],
  ['shelves.integral_gain', 0.5],
  ['shelves.output_capacitance', 0.2],
  ['banks.capacitance', 0.2],
  ['banks.esr', 0.5],
  ['trays.capacitance', 0.2],
  ['trays.esr', 0.5],
  ['trays.efficiency', 0.02],
  ['sleds.input_capacitance', 0.2],
  ['sleds.input_esr', 0.5],
  ['firmware.smoothing.time_constant', 0.2],
  ['firmware.smoothing.latency', 0.5],
  ['firmware.share.time_constant', 0.2],
  ['bars.links.resistance', 0.5],
  ['bars.contact.resistance', 0.5],
  ['load.before', 0.05],
  ['load.after', 0.05],
  ['load.low', 0.05],
  ['load.high', 0.05],
  ['load.edge', 0.5],
];

/** Those that the scenario has and that reach nothing that is adjusted already. A value of 0 is off by no share of it. */
export function suspectsIn(read: ReadScenario, adjusted: readonly Adjusted[]): Adjusted[] {
  return usual.flatMap(([path, off]) => {
    if (adjusted.some((known) => overlap(known.path, path, read.cells))) return [];
    const found = oneOf(path, read, (start) => about(start, off));
    return 'found' in found ? [] : [found];
  });
}

function about(value: number, off: number): { readonly low: number; readonly high: number } | null {
  const most = Math.abs(value) * off;
  return most > 0 ? { low: value - most, high: value + most } : null;
}
