/** The battery shelves through a stretch: who carries, waits, charges or is full, and what their packs then do. */
import type { Scenario } from '../scenario/scenario.ts';
import type { StretchDrives } from './drive.ts';
import { march } from './march.ts';
import { PackCharge } from './pack-charge.ts';
import type { PackState } from './pack-phase.ts';
import { towards } from './slow-law.ts';

type Packs = ReadonlyMap<string, PackState>;

/** Bounds on the error of a piece: temperature [K], charge. */
const bound_K = 1e-3;
const bound_ratio = 1e-6;

/** Of a battery that carries: more than this share of its modules' power into the bus. */
const carries_ratio = 0.01;

export class SlowPacks {
  private readonly scenario: Scenario;
  private readonly charge: PackCharge;
  /** Power that each gives in this stretch, 0 while it rests, and what the firmware grants it to charge with [W]. */
  private readonly given_W: readonly number[];
  private readonly granted_W: readonly number[];

  constructor(scenario: Scenario, { resting, charging }: StretchDrives) {
    this.scenario = scenario;
    this.charge = new PackCharge(scenario);
    this.given_W = scenario.batteries.map(({ id, values }) => {
      const power_W = resting.batteries.find((one) => one.id === id)?.power_W ?? 0;
      return power_W > carries_ratio * values.module_count_count * values.module_power_W ? power_W : 0;
    });
    this.granted_W = scenario.batteries.map(({ id }) =>
      Math.max(0, -(charging?.batteries.find((one) => one.id === id)?.power_W ?? 0)),
    );
  }

  areBusy(packs: Packs): boolean {
    const goesOn = [...packs.values()].some(({ phase }) => phase === 'waiting' || phase === 'charging');
    return (
      (goesOn && this.granted_W.some((power_W) => power_W > 0)) || this.given_W.some((power_W) => power_W > 0)
    );
  }

  /** What all of them take from the bus [W]. */
  allTaken_W(packs: Packs): number {
    return this.scenario.batteries.reduce((sum, { id }, k) => sum + this.taken_W(k, packs.get(id)!), 0);
  }

  /** Each `length_s` later: in its phase at the beginning of the piece. */
  advance(packs: Packs, length_s: number): Map<string, PackState> {
    return new Map(
      this.scenario.batteries.map(({ id }, k) => [
        id,
        this.advanced(k, this.phased(k, packs.get(id)!), length_s),
      ]),
    );
  }

  private taken_W(k: number, { phase, charge_ratio, degC }: PackState): number {
    return phase === 'charging' ? this.charge.taken_W(k, charge_ratio, degC, this.granted_W[k]!) : 0;
  }

  private advanced(k: number, state: PackState, length_s: number): PackState {
    const { charge } = this;
    const { phase, charge_ratio: z, degC, for_s, short_s } = state;
    const carries = phase === 'carrying';
    const law = carries
      ? charge.moved(k, this.given_W[k]!)
      : phase === 'charging'
        ? charge.charging(k, degC, this.granted_W[k]!)
        : charge.resting(k);
    const current_A = charge.current_A(k, z, carries ? this.given_W[k]! : -this.taken_W(k, state));
    const { ambient_degC, thermal_resistance_K_per_W, thermal_time_s } = this.scenario.batteries[k]!.values;
    const loss_W = charge.resistance_ohm(k) * current_A * current_A;
    const heat = towards(ambient_degC + thermal_resistance_K_per_W * loss_W, thermal_time_s);
    return {
      phase,
      charge_ratio: Math.min(1, Math.max(0, march(law, z, length_s, bound_ratio))),
      degC: march(heat, degC, length_s, bound_K),
      for_s: for_s + length_s,
      short_s: short_s === null || carries ? short_s : short_s + length_s,
    };
  }

  /** The phase in which battery k begins a piece. */
  private phased(k: number, state: PackState): PackState {
    const { charge } = this;
    const [given_W, canCharge] = [this.given_W[k]!, this.granted_W[k]! > 0];
    const { phase, charge_ratio: z, for_s, short_s } = state;
    const enter = (next: PackState['phase'], short: number | null): PackState => ({
      ...state,
      phase: next,
      for_s: 0,
      short_s: short,
    });
    if (given_W > 0) {
      if (phase === 'empty') return state;
      if (phase !== 'carrying') return enter('carrying', 0);
      return charge.isEmpty(k, z, given_W) ? enter('empty', 0) : state;
    }
    if (phase === 'carrying' || phase === 'empty') return enter('waiting', 0);
    // The longest wait that the firmware may draw: nobody waits longer.
    const { charge_wait_max_s } = this.scenario.firmware.handover;
    if (phase === 'waiting' && canCharge && for_s >= charge_wait_max_s) return enter('charging', short_s);
    if (phase === 'charging' && charge.isFull(k, z)) return enter('full', null);
    return state;
  }
}
