/**
 * The converged cycle of a periodic load: run period after period, and speed the slow states (smoothed load,
 * tray voltages and charge integrals) towards the state that repeats by Anderson's mixing.
 * Reference: D. G. Anderson, J. ACM 12(4), 1965.
 */
import { Matrix, solve } from 'ml-matrix';
import { effectOf } from '../events/log.ts';
import { advance, firmwareAgenda, type Observer } from './advance.ts';
import { outside } from './bounds.ts';
import type { Cabinet } from './cabinet.ts';

const mostCycles = 60;
const depth = 5;

/** Change over one cycle that counts as converged, on states scaled to about one. */
const tolerance = 1e-5;

/**
 * How the search for the cycle ended. `lost`: the bus left its bounds on the way, or something stopped or batteries
 * woke; what was reached then is the end of a story that the run must tell, and no start.
 */
export interface Convergence {
  readonly outcome: 'converged' | 'open' | 'lost';
  readonly cycles: number;
}

/** Brings a cabinet into the cycle of its load, with every node inside the bounds of a bus at every step. */
export function converge(cabinet: Cabinet, period: number): Convergence {
  const { recharge } = cabinet.controls;
  recharge.held = true;
  const found = search(cabinet, period);
  recharge.held = false;
  return found;
}

function search(cabinet: Cabinet, period: number): Convergence {
  const { stepper, network } = cabinet;
  const inside: Observer = {
    edge() {},
    step: () => outside(stepper, network) === null,
  };
  const slow = slowStates(cabinet);
  const pastStates: Float64Array[] = [];
  const pastChanges: Float64Array[] = [];
  for (let cycle = 1; cycle <= mostCycles; cycle++) {
    const before = slow.read();
    const { ending } = advance(cabinet, firmwareAgenda(cabinet, 0), 0, period, inside);
    if (ending !== 'reached' || hasStory(cabinet)) return { outcome: 'lost', cycles: cycle };
    const after = slow.read();
    const change = after.map((value, k) => value - before[k]!);
    const most = change.reduce((m, c) => Math.max(m, Math.abs(c)), 0);
    if (most < tolerance) return { outcome: 'converged', cycles: cycle };
    pastStates.push(after);
    pastChanges.push(change);
    // No more changes than states: further ones could not be told apart.
    if (pastStates.length > Math.min(depth, before.length + 1)) {
      pastStates.shift();
      pastChanges.shift();
    }
    if (pastStates.length > 1 && most < 0.5) slow.write(mix(pastStates, pastChanges));
  }
  return { outcome: 'open', cycles: mostCycles };
}

/** Did something stop, or a battery carry? */
function hasStory({ log }: Cabinet): boolean {
  return log.entries.some(({ what }) => effectOf(what) === 'stops' || effectOf(what) === 'carries');
}

/** The combination of past states whose changes cancel best in the least-squares sense. */
function mix(states: readonly Float64Array[], changes: readonly Float64Array[]): Float64Array {
  const m = states.length - 1;
  const last = changes[m]!;
  const n = last.length;
  const A = Matrix.zeros(n, m);
  const b = Matrix.columnVector([...last]);
  for (let c = 0; c < m; c++) for (let r = 0; r < n; r++) A.set(r, c, last[r]! - changes[c]![r]!);
  const weights = solve(A, b, true);
  const mixed = states[m]!.slice();
  for (let c = 0; c < m; c++) {
    const weight = weights.get(c, 0);
    for (let r = 0; r < n; r++) mixed[r]! -= weight * (states[m]![r]! - states[c]![r]!);
  }
  return mixed;
}

/** Reads and writes the slow states, scaled to about one. */
function slowStates(cabinet: Cabinet): { read(): Float64Array; write(values: Float64Array): void } {
  const { network, controls, stepper } = cabinet;
  const { trays, scenario } = network;
  const n = trays.count;
  const { smoothing } = controls;
  const power = scenario.firmware.smoothing.charge_power_limit_W;
  return {
    read() {
      const out = new Float64Array(1 + 2 * n);
      out[0] = smoothing.smoothed_W / scenario.rated_W;
      for (let k = 0; k < n; k++) {
        out[1 + k] = trays.voltage_V(k, stepper.x0) / trays.columns.voltage_high_V[k]!;
        out[1 + n + k] = smoothing.charge.integral_W[k]! / power;
      }
      return out;
    },
    write(values) {
      smoothing.smoothed_W = values[0]! * scenario.rated_W;
      for (let k = 0; k < n; k++) {
        const { voltage_low_V, voltage_high_V } = trays.columns;
        const u = values[1 + k]! * voltage_high_V[k]!;
        trays.charge(stepper.x0, k, Math.min(voltage_high_V[k]!, Math.max(voltage_low_V[k]!, u)));
        smoothing.charge.integral_W[k] = values[1 + n + k]! * power;
      }
    },
  };
}
