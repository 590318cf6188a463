/**
 * What ends a carry before AC is back. In this order: power that the packs have not (no upper root of
 * p = (U − R0 i) i, that is U² < 4 R0 p/η), charge at its lower end, pack voltage at its lower end, temperature.
 */
import type { PackPorts } from '../../devices/pack/pack-ports.ts';
import type { BatteryPhase } from './battery-phase.ts';

export interface CarryColumns {
  /** Lower ends: charge [ratio] and terminal voltage of the packs [V]. */
  readonly chargeMin: Float64Array;
  readonly voltageMin_V: Float64Array;
  readonly temperatureMax_degC: Float64Array;
}

export interface CarryEnd {
  readonly phase: Extract<BatteryPhase, 'empty' | 'cooling' | 'fault'>;
  readonly detail: string;
}

/** Why shelf k, giving p to the bus [W], must stop; null while it may go on. */
export function carryEnd(packs: PackPorts, limits: CarryColumns, k: number, p: number): CarryEnd | null {
  const z = packs.charge_ratio(k);
  const T = packs.temperature_degC(k);
  const most = packs.most_W(k);
  if (p > most) {
    return {
      phase: 'fault',
      detail: `asked for ${(p / 1e3).toFixed(1)} kW, its packs can give ${(most / 1e3).toFixed(1)} kW: no solution, stops`,
    };
  }
  if (z <= limits.chargeMin[k]!) {
    return { phase: 'empty', detail: `charge at its lower end of ${percent(limits.chargeMin[k]!)}, stops` };
  }
  const v = packs.terminal_V(k, p);
  if (v < limits.voltageMin_V[k]!) {
    return {
      phase: 'empty',
      detail: `packs at ${v.toFixed(2)} V, their lower end, with ${percent(z)} of charge left, stops`,
    };
  }
  if (T >= limits.temperatureMax_degC[k]!) {
    return { phase: 'cooling', detail: `packs at ${T.toFixed(1)} °C, their highest temperature, stops` };
  }
  return null;
}

function percent(ratio: number): string {
  return `${(ratio * 100).toFixed(1)} %`;
}
