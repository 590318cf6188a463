/**
 * The built-in hand-over of battery shelves, written as a module. Begin here.
 *
 *   asleep → starting        AC told lost, or v below the trigger for `debounce`
 *   carrying                 at the set point on loss; where AC is settled the set point ramps down to that of sleep
 *   → asleep                 the ramp is over, and the current has been low for `idle_time`
 */
import type { HandoverController } from 'buswake';

/** None so far. */
const never = -1;

export const controller: HandoverController = {
  memory: ({ batteries }) =>
    ['low since', 'handing back since', 'idle since', 'set point'].flatMap((what) =>
      batteries.map((name) => `${name} ${what}`),
    ),

  run(input, memory, { batteries, rated_A, period_s, values }, shown) {
    const n = batteries.length;
    // Memory begins at zero: times are kept one sample late, so that 0 is no time.
    const now = input.time_s + period_s;
    const [low, back, idle, set_V] = [0, 1, 2, 3].map((part) =>
      memory.subarray(part * n, (part + 1) * n),
    ) as [Float64Array, Float64Array, Float64Array, Float64Array];
    const isOver = (since: number, time_s: number): boolean =>
      since > 0 && Math.round((now - since) / period_s) >= Math.round(time_s / period_s);
    for (let k = 0; k < n; k++) {
      if (!input.starting[k] && !input.carrying[k]) {
        [back[k], idle[k]] = [0, 0];
        if (!(input.voltage_V[k]! < values.trigger_voltage_V)) low[k] = 0;
        else if (low[k] === 0) low[k] = now;
        const isLow = isOver(low[k]!, values.debounce_s);
        set_V[k] = input.ac_lost ? values.set_point_on_loss_V : isLow ? values.set_point_asleep_V : never;
        if (set_V[k]! > 0) low[k] = 0;
      } else if (input.ac_lost) {
        set_V[k] = values.set_point_on_loss_V;
        [back[k], idle[k]] = [0, 0];
      } else if (input.carrying[k] && back[k] === 0) {
        if (input.settled) back[k] = now;
      } else if (input.carrying[k]) {
        const from = values.set_point_on_loss_V;
        const along = Math.min(
          1,
          Math.round((now - back[k]!) / period_s) / Math.round(values.ramp_s / period_s),
        );
        const target = from + along * (values.set_point_asleep_V - from);
        if (target < set_V[k]!) set_V[k] = target;
        const isIdle = along >= 1 && input.current_A[k]! < values.idle_current_ratio * rated_A[k]!;
        if (!isIdle) idle[k] = 0;
        else if (idle[k] === 0) idle[k] = now;
        if (isOver(idle[k]!, values.idle_time_s)) set_V[k] = never;
      }
      if (k < shown.length) shown[k] = set_V[k]!;
    }
    return set_V;
  },
};
