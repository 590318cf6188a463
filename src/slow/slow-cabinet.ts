/** One cabinet through stretches of constant drive: every slow state a piece of time further. */
import type { Scenario } from '../scenario/scenario.ts';
import { barHeat } from './bar-heat.ts';
import { barOf } from './bar-of.ts';
import { betweenDrives } from './between-drives.ts';
import { chargingPower_W, type Drive, type StretchDrives } from './drive.ts';
import { jointHeat, softened_K } from './joint-heat.ts';
import { wornIn } from './life.ts';
import { bankHeat, trayHeat } from './loss-heat.ts';
import { march } from './march.ts';
import type { SlowLaw } from './slow-law.ts';
import { SlowPacks } from './slow-packs.ts';
import { jointOf, type SlowStates } from './slow-states.ts';

/** Bound on the error of a temperature over a piece [K]. */
const bound_K = 1e-3;

export class SlowCabinet {
  readonly scenario: Scenario;
  private readonly packs: SlowPacks;
  private readonly drives: StretchDrives;

  constructor(scenario: Scenario, drives: StretchDrives) {
    this.scenario = scenario;
    this.drives = drives;
    this.packs = new SlowPacks(scenario, drives);
  }

  /** Whether any battery is on its way to full or to empty: pieces must then be short. */
  isBusy(states: SlowStates): boolean {
    return this.packs.areBusy(states.packs);
  }

  /** States `length_s` later. A piece: what one part does to another stands still for it. */
  advance(states: SlowStates, length_s: number): SlowStates {
    const packs = this.packs.advance(states.packs, length_s);
    const drive = this.driveWith(states);
    const { scenario } = this;
    const bars = drive.bars.flatMap(({ id, rms_A, aged_ohm }) => {
      const [bar_K, joint_K] = [states.bar_K.get(id), states.joint_K.get(id)];
      const bar = barOf(scenario, id);
      const heat = barHeat(bar, rms_A);
      if (bar_K === undefined || joint_K === undefined || heat === null) return [];
      const joint = march(jointHeat(jointOf(bar, aged_ohm), rms_A), joint_K, length_s, bound_K);
      return [{ id, bar_K: march(heat, bar_K, length_s, bound_K), joint_K: Math.min(softened_K, joint) }];
    });
    const worn = new Map(states.worn_ratio);
    const spots = (
      laws: readonly (readonly [id: string, law: SlowLaw | null])[],
      before: ReadonlyMap<string, number>,
      wear: (id: string) => readonly [perSecond: number, at_degC: number],
    ): Map<string, number> =>
      new Map(
        laws.flatMap(([id, law]): [string, number][] => {
          const degC = before.get(id);
          if (law === null || degC === undefined) return [];
          const middle = march(law, degC, length_s / 2, bound_K);
          const end = march(law, degC, length_s, bound_K);
          const [perSecond, at_degC] = wear(id);
          const more = perSecond > 0 ? wornIn(length_s, perSecond, [degC, middle, end], at_degC) : 0;
          worn.set(id, (worn.get(id) ?? 0) + more);
          return [[id, end]];
        }),
      );
    const trays = drive.trays.flatMap((one) => {
      const tray = scenario.trays.find(({ id }) => id === one.id);
      return tray === undefined ? [] : [{ ...one, values: tray.values }];
    });
    const banks = drive.banks.flatMap((one) => {
      const bank = scenario.banks.find(({ id }) => id === one.id);
      return bank === undefined ? [] : [{ ...one, values: bank.values }];
    });
    return {
      bar_K: new Map(bars.map(({ id, bar_K }) => [id, bar_K])),
      joint_K: new Map(bars.map(({ id, joint_K }) => [id, joint_K])),
      tray_degC: spots(
        trays.map(({ id, values, rms_A }) => [id, trayHeat(values, rms_A)] as const),
        states.tray_degC,
        (id) => {
          const { worn_per_s, values } = trays.find((one) => one.id === id)!;
          return [worn_per_s, values.rated_life_temperature_degC];
        },
      ),
      bank_degC: spots(
        banks.map(({ id, values, rms_A }) => [id, bankHeat(values, rms_A)] as const),
        states.bank_degC,
        (id) => {
          const { rated_life_s, rated_life_temperature_degC } = banks.find((one) => one.id === id)!.values;
          return [rated_life_s > 0 ? 1 / rated_life_s : 0, rated_life_temperature_degC];
        },
      ),
      packs,
      worn_ratio: worn,
    };
  }

  /** The drive with what batteries in these states take. */
  driveWith(states: SlowStates): Drive {
    const { resting, charging } = this.drives;
    if (charging === null) return resting;
    const all_W = chargingPower_W(charging);
    if (!(all_W > 0)) return resting;
    return betweenDrives(resting, charging, this.packs.allTaken_W(states.packs) / all_W);
  }
}
