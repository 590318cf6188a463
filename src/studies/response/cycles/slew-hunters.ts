/**
 * Slew limits of stages with a loop of their own. The stage clamps w = K_p e + x − i to y within ±S τ_i and takes di/dt = y/τ_i,
 * dx/dt = (i + y − x)/T (devices/stage/stage.ts): a clamp without memory, whatever the frequency. Its lag makes it a limit of slope.
 */
import type { Cabinet } from '../../../engine/cabinet.ts';
import { saturation } from '../../../linear/cycles/describing.ts';
import { openedPlant, type PlantPlace } from '../../../linear/cycles/opened.ts';
import type { Places } from '../places.ts';
import { directionsOf } from './directions.ts';
import type { Hunter } from './hunter.ts';

export function slewHunters({ network }: Cabinet, { system }: Places): Hunter[] {
  const { stages, shelfCount } = network;
  const own = Array.from({ length: shelfCount }, (_, k) => k).filter(
    (k) => stages.running[k] === 1 && stages.columns.isCommanded[k] !== 1,
  );
  if (own.length === 0) return [];
  const { columns } = stages;
  const places = own.map((k): PlantPlace => {
    const [dx, cx] = [new Float64Array(network.stateCount), new Float64Array(network.stateCount)];
    const cv = new Float64Array(network.nodeCount);
    dx[stages.place('current_A', k)] = stages.perLag[k]!;
    dx[stages.place('integrator_A', k)] = stages.perWindup[k]!;
    const gain = columns.proportional_gain_A_per_V[k]!;
    cv[stages.node[k]!] = -gain;
    cx[stages.place('droop_filter_A', k)] = -gain * columns.droop_ohm[k]!;
    if (columns.control_delay_s[k]! > 0) cx[stages.place('delay_2_V', k)] = 2 * gain;
    if (columns.integral_gain_A_per_Vs[k]! > 0) cx[stages.place('integrator_A', k)] = 1;
    cx[stages.place('current_A', k)] = -1;
    return { push: system.plant.reduce(dx), read: system.plant.read(cx, cv).c };
  });
  const [first] = own;
  return directionsOf(
    own.map((k) => stages.names[k]!),
    true,
  ).map((direction) => ({
    element: 'slew limit',
    given: 'current asked for beyond the present one',
    unit: 'A' as const,
    size: stages.span_A[first!]!,
    direction,
    acts: saturation(stages.span_A[first!]!),
    loop: openedPlant(system, places, direction.weights),
    rests: null,
    shelfCurrent_A: (f: number, gain: number) => (gain * stages.perLag[first!]!) / (2 * Math.PI * f),
    silent: null,
  }));
}
