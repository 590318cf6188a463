/** The laws of the user's own that a scenario names, made for its site. */
import { storedEnergy_J } from '../../devices/tray/tray-ratings.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import type { Site } from '../site.ts';
import { UserShare } from './user-share.ts';
import { UserSmoothing } from './user-smoothing.ts';

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
