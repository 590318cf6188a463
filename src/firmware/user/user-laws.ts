/** The laws of the user's own that a scenario names, made for its site. */
import { storedEnergy_J } from '../../devices/tray/tray-ratings.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import type { VoltageLaw } from '../shelf/voltage-law.ts';
import type { Site } from '../site.ts';
import { UserHandover } from './user-handover.ts';
import { UserShare } from './user-share.ts';
import { UserSmoothing } from './user-smoothing.ts';
import { UserVoltage } from './user-voltage.ts';

/** The user's own share law; null where the scenario names none. */
export function userShare({ shelves }: Site, { controllers, firmware }: Scenario): UserShare | null {
  const spec = controllers.find(({ replaces }) => replaces === 'share');
  if (spec === undefined) return null;
  return new UserShare(spec, {
    shelves: shelves.names,
    rated_A: shelves.names.map((_, k) => shelves.rated_A(k)),
    droop_ohm: shelves.names.map((_, k) => shelves.staticDroop_ohm(k)),
    values: firmware.share,
  });
}

/** The user's own smoothing law; null where the scenario names none. */
export function userSmoothing({ trays }: Site, { controllers, firmware }: Scenario): UserSmoothing | null {
  const spec = controllers.find(({ replaces }) => replaces === 'smoothing');
  if (spec === undefined) return null;
  const { columns } = trays.ratings;
  return new UserSmoothing(spec, {
    trays: trays.names,
    power_W: [...columns.power_limit_W],
    low_J: trays.names.map((_, k) => storedEnergy_J(trays.ratings, k, columns.voltage_low_V[k]!)),
    high_J: trays.names.map((_, k) => storedEnergy_J(trays.ratings, k, columns.voltage_high_V[k]!)),
    values: firmware.smoothing,
  });
}

/** Shelves of one timing, and what the built-in loop of each is tuned to. */
export interface LoopGroup {
  readonly members: readonly number[];
  readonly period_s: number;
  readonly latency_s: number;
  readonly tuned: VoltageLaw;
}

/** Makes the user's own voltage loop for shelves of one timing; null where the scenario names none. */
export function userVoltage(
  { shelves }: Site,
  { controllers }: Scenario,
): ((group: LoopGroup) => UserVoltage) | null {
  const spec = controllers.find(({ replaces }) => replaces === 'voltage-loop');
  if (spec === undefined) return null;
  return ({ members, period_s, latency_s, tuned: columns }) =>
    new UserVoltage(spec, {
      shelves: members.map((k) => shelves.names[k]!),
      rated_A: members.map((k) => shelves.rated_A(k)),
      period_s,
      latency_s,
      tuned: {
        proportional_gain_A_per_V: [...columns.proportional_gain_A_per_V],
        droop_ohm: [...columns.droop_ohm],
        filter_ratio: [...columns.filter_ratio],
        integral_ratio: [...columns.integral_ratio],
        reach_A: [...columns.reach_A],
        fade_ratio: [...columns.fade_ratio],
        quantum_A: [...columns.quantum_A],
      },
    });
}

/** The user's own hand-over; null where the scenario names none. */
export function userHandover({ batteries }: Site, { controllers, firmware }: Scenario): UserHandover | null {
  const spec = controllers.find(({ replaces }) => replaces === 'hand-over');
  if (spec === undefined) return null;
  return new UserHandover(spec, {
    batteries: batteries.names,
    rated_A: batteries.names.map((_, k) => batteries.rated_A(k)),
    period_s: firmware.supervisor.period_s,
    values: firmware.handover,
  });
}
