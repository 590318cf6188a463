/** All firmware of a cabinet, wired to its site: which task looks at which, in the order in which they run. */
import type { Ports } from '../devices/ports.ts';
import type { Log } from '../events/log.ts';
import { Random } from '../loads/random.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { charges, handoverColumns, rechargeColumns } from './battery/battery-columns.ts';
import { Handover } from './battery/handover.ts';
import { Recharge } from './battery/recharge.ts';
import { batteryGroup } from './share/battery-group.ts';
import { Share } from './share/share.ts';
import { ShelfGroup } from './share/shelf-group.ts';
import { BulkGuard } from './shelf/bulk-guard.ts';
import { ShelfGuard } from './shelf/shelf-guard.ts';
import type { VoltageLoop } from './shelf/voltage-loop.ts';
import { voltageLoops } from './shelf/voltage-loops.ts';
import { WalkIn } from './shelf/walk-in.ts';
import { AcSignal } from './signal/ac-signal.ts';
import { FeederWatch } from './signal/feeder-watch.ts';
import { LineLevel } from './signal/line-level.ts';
import { siteOf } from './site.ts';
import type { HotSwap } from './sled/hot-swap.ts';
import type { SledGuard } from './sled/sled-guard.ts';
import type { SledPower } from './sled/sled-power.ts';
import { wireSleds } from './sled/sled-wiring.ts';
import type { SampledTask, Watcher } from './task.ts';
import { Smoothing } from './tray/smoothing.ts';
import type { TrayLoops } from './tray/tray-loops.ts';
import { userHandover, userShare, userSmoothing, userVoltage } from './user/user-laws.ts';

export interface Controls {
  readonly share: Share;
  /** Which shelves take part in it. */
  readonly sharing: ShelfGroup;
  /** Among battery shelves while they carry; null where each stands alone. */
  readonly batteryShare: Share | null;
  readonly smoothing: Smoothing;
  /** Voltage loops that are sampled; none where those of the stages are their own. */
  readonly voltageLoops: readonly VoltageLoop[];
  readonly acSignal: AcSignal;
  readonly shelfGuard: ShelfGuard;
  readonly walkIn: WalkIn;
  readonly handover: Handover;
  readonly recharge: Recharge;
  readonly sledPower: SledPower;
  readonly sledGuard: SledGuard;
  readonly hotSwap: HotSwap;
  readonly lineLevel: LineLevel;
  readonly feederWatch: FeederWatch;
  /** Tasks with a period and a signal of their own, in the order in which they run at a shared tick. */
  readonly tasks: readonly SampledTask[];
  /** What supervision watches, in its order. */
  readonly watchers: readonly Watcher[];
  /** Sampling period of all supervision [ticks]. */
  readonly supervision: number;
}

/** Builds every task of a scenario over the ports of its devices; `loops`: as they stand unless they are given. */
export function wire(scenario: Scenario, ports: Ports, log: Log, loops?: TrayLoops): Controls {
  const { firmware } = scenario;
  const site = siteOf(scenario, ports, log, loops);
  const shelves = scenario.shelves.map(({ values }) => values);

  const sharing = new ShelfGroup(site, shelves);
  const share = new Share(site, firmware.share, sharing, userShare(site, scenario));
  const isCarrying = (): boolean => handover.isCarrying();
  const smoothing = new Smoothing(site, firmware.smoothing, isCarrying, userSmoothing(site, scenario));
  const acSignal = new AcSignal(site, firmware.supervisor, (lost, tick) => {
    if (lost) smoothing.stop();
    else smoothing.resume(tick);
  });
  const isBatteryComing = (): boolean => handover.phases.of.includes('arming');
  const shelfGuard = new ShelfGuard(site, shelves, sharing, isBatteryComing);
  const walkIn = new WalkIn(site, shelves, shelfGuard);
  const lineLevel = new LineLevel(site, shelves, acSignal, walkIn);
  const feederWatch = new FeederWatch(site, shelves, { lineLevel, walkIn, acSignal });
  const bulkGuard = new BulkGuard(site, shelves, lineLevel);
  const handover = new Handover(
    site,
    firmware.handover,
    handoverColumns(scenario),
    acSignal,
    walkIn,
    userHandover(site, scenario),
  );
  const recharge = new Recharge(
    site,
    firmware.handover,
    rechargeColumns(scenario),
    handover,
    chargeWaits(scenario),
  );
  const sleds = wireSleds(site, scenario, { acSignal, walkIn, handover, smoothing });
  const isShared = firmware.share.batteries === 'share' && site.batteries.count > 0;
  const batteryShare = isShared ? new Share(site, firmware.share, batteryGroup(site, handover)) : null;
  const sampledLoops = voltageLoops(site, shelves, scenario.seed, userVoltage(site, scenario));
  return {
    share,
    sharing,
    batteryShare,
    smoothing,
    voltageLoops: sampledLoops,
    acSignal,
    shelfGuard,
    walkIn,
    handover,
    recharge,
    sledPower: sleds.sledPower,
    sledGuard: sleds.sledGuard,
    hotSwap: sleds.hotSwap,
    lineLevel,
    feederWatch,
    tasks: [
      smoothing,
      share,
      ...(batteryShare === null ? [] : [batteryShare]),
      ...(charges(scenario) ? [recharge] : []),
      // Last, so that a trim acts at once.
      ...sampledLoops,
    ],
    watchers: [
      acSignal,
      feederWatch,
      lineLevel,
      bulkGuard,
      walkIn,
      shelfGuard,
      handover,
      ...sleds.sledWatchers,
    ],
    supervision: site.supervision,
  };
}

/** The next random number of battery shelf k, uniform in [0, 1): each draws its waits from a seed of its own. */
function chargeWaits({ batteries, seed }: Scenario): (k: number) => number {
  const dice = batteries.map((_, k) => new Random(seed + 7919 * (k + 1)));
  return (k) => dice[k]!.uniform();
}
