/**
 * The built-in sampled voltage loop, written as a module: a run with it ends in the same bits as one without. Begin here.
 *
 *   f = (φ + q_f i)/(1 + q_f)          e = V + u − R_d f/a − v          w = a K_p (1 + q_x) e + ξ
 *   ı̂ = c + (i − c) fade               c = max(lo, min(w, hi))          lo = max(0, ı̂ − a D), hi = min(I_lim, ı̂ + a D)
 *   x = (ξ + q_x c)/(1 + q_x)          φ ← (1 − q_f) f + q_f i          ξ ← (1 − q_x) x + q_x c
 */
import type { VoltageController, VoltageInput, VoltageSetup } from 'buswake';

/** What the shelf may be commanded to when its loop asks for `wanted` [A]. */
function clamped(
  k: number,
  wanted: number,
  last_A: number,
  { current_A, alive_ratio, limit_A }: VoltageInput,
  { tuned }: VoltageSetup,
): number {
  const foreseen = last_A + (current_A[k]! - last_A) * tuned.fade_ratio[k]!;
  const reach = alive_ratio[k]! * tuned.reach_A[k]!;
  const lo = foreseen > reach ? foreseen - reach : 0;
  const hi = limit_A[k]! < foreseen + reach ? limit_A[k]! : foreseen + reach;
  if (hi < lo || wanted < lo) return lo;
  return wanted > hi ? hi : wanted;
}

export const controller: VoltageController = {
  memory: ({ shelves }) =>
    ['voltage integrator', 'droop filter', 'last current command', 'modules alive'].flatMap((what) =>
      shelves.map((name) => `${name} ${what}`),
    ),

  run(input, memory, setup, shown) {
    const { tuned, shelves } = setup;
    const n = shelves.length;
    const integral_A = memory.subarray(0, n);
    const filter_A = memory.subarray(n, 2 * n);
    const command_A = memory.subarray(2 * n, 3 * n);
    const alive_ratio = memory.subarray(3 * n);
    for (let k = 0; k < n; k++) {
      const alive = input.alive_ratio[k]!;
      // Modules that have left take their part of the memory along.
      const share = alive / alive_ratio[k]!;
      alive_ratio[k] = alive;
      if (share < 1) {
        filter_A[k] = filter_A[k]! * share;
        integral_A[k] = integral_A[k]! * share;
      }
      const i = input.current_A[k]!;
      const [qf, qx] = [tuned.filter_ratio[k]!, tuned.integral_ratio[k]!];
      const f = (filter_A[k]! + qf * i) / (1 + qf);
      const e = input.reference_V[k]! - (tuned.droop_ohm[k]! / alive) * f - input.voltage_V[k]!;
      const wanted = alive * tuned.proportional_gain_A_per_V[k]! * (1 + qx) * e + integral_A[k]!;
      const c = input.running[k] ? clamped(k, wanted, command_A[k]!, input, setup) : 0;
      const x = (integral_A[k]! + qx * c) / (1 + qx);
      filter_A[k] = (1 - qf) * f + qf * i;
      integral_A[k] = (1 - qx) * x + qx * c;
      const quantum = tuned.quantum_A[k]!;
      command_A[k] = quantum > 0 ? Math.round(c / quantum) * quantum : c;
      if (k < shown.length) shown[k] = e;
    }
    return command_A;
  },

  restingMemory({ current_A, alive_ratio }, { tuned }) {
    const integral_A = current_A.map((i, k) => (tuned.integral_ratio[k]! > 0 ? i : 0));
    return [...integral_A, ...current_A, ...current_A, ...alive_ratio];
  },
};
