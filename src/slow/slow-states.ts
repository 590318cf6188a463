/** All slow states of a cabinet, by unit or bar. A part whose model does not state what its heat or life goes by has none. */
import type { Scenario } from '../scenario/scenario.ts';
import { barHeat } from './bar-heat.ts';
import { barOf } from './bar-of.ts';
import type { Drive } from './drive.ts';
import { jointHeat, softened_K } from './joint-heat.ts';
import { bankSpot_degC, hotSpot_degC } from './loss-heat.ts';
import { march } from './march.ts';
import type { PackState } from './pack-phase.ts';

export interface SlowStates {
  /** Rise of each bar over its air, and of its worst joint over the bar [K]. */
  readonly bar_K: ReadonlyMap<string, number>;
  readonly joint_K: ReadonlyMap<string, number>;
  /** Hottest spot of a tray's cells and of a bank's capacitors. */
  readonly tray_degC: ReadonlyMap<string, number>;
  readonly bank_degC: ReadonlyMap<string, number>;
  readonly packs: ReadonlyMap<string, PackState>;
  /** Part of the life of trays and banks that is used up. */
  readonly worn_ratio: ReadonlyMap<string, number>;
}

/** Longer than any part takes to warm up [s]. */
const forGood_s = 1e7;

/** A cabinet as cold as its air and coolant, or as it gets where the drive goes on for good; batteries as they start, nothing worn. */
export function slowStart(scenario: Scenario, drive: Drive, from: 'cold' | 'steady'): SlowStates {
  const isCold = from === 'cold';
  const bars = drive.bars.flatMap(({ id, rms_A, aged_ohm }) => {
    const bar = barOf(scenario, id);
    const heat = barHeat(bar, isCold ? 0 : rms_A);
    const joint = jointHeat(jointOf(bar, aged_ohm), isCold ? 0 : rms_A);
    return heat === null
      ? []
      : [
          {
            id,
            bar_K: march(heat, 0, forGood_s, 1e-6),
            joint_K: Math.min(softened_K, march(joint, 0, forGood_s, 1e-6)),
          },
        ];
  });
  const spots = <P extends { readonly id: string; readonly rms_A: number }>(
    parts: readonly P[],
    spot: (part: P, rms_A: number) => number | null,
  ): Map<string, number> =>
    new Map(
      parts.flatMap((part): [string, number][] => {
        const degC = spot(part, isCold ? 0 : part.rms_A);
        return degC === null ? [] : [[part.id, degC]];
      }),
    );
  return {
    bar_K: new Map(bars.map(({ id, bar_K }) => [id, bar_K])),
    joint_K: new Map(bars.map(({ id, joint_K }) => [id, joint_K])),
    tray_degC: spots(drive.trays, ({ id }, rms_A) => {
      const tray = scenario.trays.find((one) => one.id === id);
      return tray === undefined ? null : hotSpot_degC(tray.values, rms_A);
    }),
    bank_degC: spots(drive.banks, ({ id }, rms_A) => {
      const bank = scenario.banks.find((one) => one.id === id);
      return bank === undefined ? null : bankSpot_degC(bank.values, rms_A);
    }),
    packs: new Map(
      scenario.batteries.map(({ id, values }) => {
        const { charge_ratio, ambient_degC: degC, charge_power_W } = values;
        const isShort = charge_ratio < 1 && charge_power_W > 0;
        const phase = isShort ? 'waiting' : 'full';
        return [id, { charge_ratio, degC, phase, for_s: 0, short_s: isShort ? 0 : null }];
      }),
    ),
    worn_ratio: new Map([...drive.trays, ...drive.banks].map(({ id }) => [id, 0])),
  };
}

/** The worst joint of a bar: what the bar has gained lies in one joint. */
export function jointOf(bar: ReturnType<typeof barOf>, aged_ohm: number): Parameters<typeof jointHeat>[0] {
  const { joint_resistance_ohm, joint_thermal_resistance_K_per_W, thermal_time_s } = bar;
  return {
    thermal_K_per_W: joint_thermal_resistance_K_per_W,
    joint_ohm: joint_resistance_ohm + Math.max(0, aged_ohm),
    time_s: thermal_time_s,
  };
}
