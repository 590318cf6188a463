/** All firmware of a cabinet, wired to its devices: which task runs on which signal. */
import type { Bars } from '../devices/bar/bar.ts';
import type { Capacitors } from '../devices/capacitor/capacitor.ts';
import type { Intakes } from '../devices/intake/intake.ts';
import type { Packs } from '../devices/pack/pack.ts';
import type { Sensor } from '../devices/sensor/sensor.ts';
import type { Sleds } from '../devices/sled/sled.ts';
import type { Stages } from '../devices/stage/stage.ts';
import type { Trays } from '../devices/tray/tray.ts';
import type { Log } from '../events/log.ts';
import { Random } from '../loads/random.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { AcSignal } from './ac-signal.ts';
import { charges, feederColumns, handoverColumns, rechargeColumns } from './battery-columns.ts';
import { BulkGuard } from './bulk-guard.ts';
import { Handover } from './handover.ts';
import type { HotSwap } from './hot-swap.ts';
import { LineLevel } from './line-level.ts';
import { Recharge } from './recharge.ts';
import { Share } from './share.ts';
import { batteryGroup, shelfGroup } from './share-group.ts';
import { ShelfGuard } from './shelf-guard.ts';
import { ShelfLimits } from './shelf-limits.ts';
import type { SledGuard } from './sled-guard.ts';
import type { SledPower } from './sled-power.ts';
import { wireSleds } from './sled-wiring.ts';
import { Smoothing } from './smoothing.ts';
import type { Plant, SampledTask, Watcher } from './task.ts';
import { UserShare } from './user/user-share.ts';
import { UserSmoothing } from './user/user-smoothing.ts';
import { WalkIn } from './walk-in.ts';

export interface Controlled {
  readonly bars: Bars;
  readonly capacitors: Capacitors;
  readonly stages: Stages;
  readonly intakes: Intakes;
  readonly trays: Trays;
  readonly packs: Packs;
  readonly sensor: Sensor;
  readonly sleds: Sleds;
}

export interface Controls {
  readonly share: Share;
  /** Among battery shelves while they carry; null where each stands alone. */
  readonly batteryShare: Share | null;
  readonly smoothing: Smoothing;
  readonly acSignal: AcSignal;
  readonly shelfGuard: ShelfGuard;
  readonly walkIn: WalkIn;
  readonly handover: Handover;
  readonly recharge: Recharge;
  readonly sledPower: SledPower;
  readonly sledGuard: SledGuard;
  readonly hotSwap: HotSwap;
  readonly lineLevel: LineLevel;
  /** Tasks with a period and a signal of their own, in the order in which they run at a shared tick. */
  readonly tasks: readonly SampledTask[];
  /** What supervision watches, in its order. */
  readonly watchers: readonly Watcher[];
  /** Sampling period of all supervision [ticks]. */
  readonly supervision: number;
}

/** Builds every task of a scenario over its devices. */
export function wire(scenario: Scenario, devices: Controlled, plant: Plant, log: Log): Controls {
  const { tick_s, firmware } = scenario;
  const { stages, intakes, trays, packs, sensor } = devices;
  const ticks = (seconds: number): number => Math.round(seconds / tick_s);

  const sharing = shelfGroup(scenario.shelves, tick_s, stages, intakes, plant);
  const own = userShare(scenario, stages);
  const share = new Share('share', firmware.share, tick_s, sharing, stages, plant, log, own);
  const smoothing = new Smoothing(
    firmware.smoothing,
    tick_s,
    trays,
    sensor,
    plant,
    log,
    () => handover.isCarrying(),
    userSmoothing(scenario, trays),
  );
  const { detection_s, signal_latency_s, period_s } = firmware.supervisor;
  const acSignal = new AcSignal(ticks(detection_s + signal_latency_s), log, (lost, tick) => {
    if (lost) smoothing.stop();
    else smoothing.resume(tick);
  });
  const delays = Float64Array.from(scenario.shelves, (shelf) => ticks(shelf.values.start_delay_s));
  const shelves = scenario.shelves.map(({ values }) => values);
  const shelfGuard = new ShelfGuard(
    shelves,
    tick_s,
    ticks(period_s),
    new ShelfLimits(shelves, stages, intakes, plant),
    stages,
    intakes,
    share.starting,
    (): boolean => handover.phases.of.includes('arming'),
    plant,
    log,
  );
  const walkIn = new WalkIn(delays, ticks(detection_s), stages, intakes, shelfGuard, plant, log);
  const lineLevel = new LineLevel(shelves, tick_s, ticks(detection_s), intakes, acSignal, walkIn, log);
  const bulkGuard = new BulkGuard(shelves, intakes, lineLevel, plant, log);
  const handover = new Handover(
    firmware.handover,
    tick_s,
    handoverColumns(scenario),
    stages,
    packs,
    acSignal,
    walkIn,
    plant,
    log,
  );
  const dice = scenario.batteries.map((_, k) => new Random(scenario.seed + 7919 * (k + 1)));
  const recharge = new Recharge(
    firmware.handover,
    tick_s,
    rechargeColumns(scenario),
    feederColumns(scenario),
    handover,
    stages,
    intakes,
    packs,
    plant,
    (k) => dice[k]!.uniform(),
    log,
  );
  const { sledPower, sledGuard, hotSwap, sledWatchers } = wireSleds(
    scenario,
    devices,
    { acSignal, walkIn, handover, smoothing },
    plant,
    log,
  );
  const batteryShare =
    firmware.share.batteries === 'share' && packs.count > 0
      ? new Share(
          'battery share',
          firmware.share,
          tick_s,
          batteryGroup(stages, packs, handover),
          stages,
          plant,
          log,
        )
      : null;
  return {
    share,
    batteryShare,
    smoothing,
    acSignal,
    shelfGuard,
    walkIn,
    handover,
    recharge,
    sledPower,
    sledGuard,
    hotSwap,
    lineLevel,
    tasks: [
      smoothing,
      share,
      ...(batteryShare === null ? [] : [batteryShare]),
      ...(charges(scenario) ? [recharge] : []),
    ],
    watchers: [lineLevel, bulkGuard, walkIn, shelfGuard, handover, ...sledWatchers],
    supervision: ticks(period_s),
  };
}

/** The user's own share law, where the scenario names one. */
function userShare({ controllers, firmware, shelves }: Scenario, stages: Stages): UserShare | null {
  const spec = controllers.find(({ replaces }) => replaces === 'share');
  if (spec === undefined) return null;
  return new UserShare(spec, {
    shelves: shelves.map(({ id }) => id),
    rated_A: shelves.map((_, k) => stages.columns.rated_A[k]!),
    droop_ohm: shelves.map((_, k) => stages.staticDroop_ohm(k)),
    values: firmware.share,
  });
}

function userSmoothing({ controllers, firmware }: Scenario, trays: Trays): UserSmoothing | null {
  const spec = controllers.find(({ replaces }) => replaces === 'smoothing');
  if (spec === undefined) return null;
  const { low_V, high_V, power_W } = trays.columns;
  return new UserSmoothing(spec, {
    trays: [...trays.names],
    power_W: [...power_W],
    low_J: trays.names.map((_, k) => trays.energy_J(k, low_V[k]!)),
    high_J: trays.names.map((_, k) => trays.energy_J(k, high_V[k]!)),
    values: firmware.smoothing,
  });
}
