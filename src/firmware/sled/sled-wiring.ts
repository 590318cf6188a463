/** The sleds' firmware of a cabinet and the supervisor's brake on them, wired to their devices. */
import type { Scenario } from '../../scenario/scenario.ts';
import type { Handover } from '../battery/handover.ts';
import type { WalkIn } from '../shelf/walk-in.ts';
import type { AcSignal } from '../signal/ac-signal.ts';
import type { Site } from '../site.ts';
import type { Watcher } from '../task.ts';
import { Brake, type BrakeSight } from '../tray/brake.ts';
import type { Smoothing } from '../tray/smoothing.ts';
import { HotSwap } from './hot-swap.ts';
import { restartDelays } from './restart-delays.ts';
import { SledGuard } from './sled-guard.ts';
import { SledPower } from './sled-power.ts';
import { SledThrottle } from './sled-throttle.ts';

/** Firmware that the brake looks at. */
export interface BrakeSources {
  readonly acSignal: AcSignal;
  readonly walkIn: WalkIn;
  readonly handover: Handover;
  readonly smoothing: Smoothing;
}

export interface SledControls {
  readonly sledPower: SledPower;
  readonly sledGuard: SledGuard;
  readonly hotSwap: HotSwap;
  /** In their order. */
  readonly sledWatchers: readonly Watcher[];
}

export function wireSleds(site: Site, scenario: Scenario, sources: BrakeSources): SledControls {
  const { bars, capacitors } = site;
  const column = (read: (values: Scenario['sleds'][number]['values']) => number): Float64Array =>
    Float64Array.from(scenario.sleds, ({ values }) => read(values));

  const sledPower = new SledPower(site);
  const sledGuard = new SledGuard(
    site,
    {
      cutOff_V: column((v) => v.cut_off_voltage_V),
      restart_V: column((v) => v.restart_voltage_V),
      cutOff: column((v) => site.ticks(v.cut_off_time_s)),
      restart: restartDelays(scenario),
      ramp: column((v) => site.ticks(v.restart_ramp_s)),
    },
    sledPower,
  );
  const throttle = new SledThrottle(
    site,
    {
      threshold_V: column((v) => v.throttle_voltage_V),
      hysteresis_V: column((v) => v.throttle_hysteresis_V),
      level: column((v) => v.throttle_level_ratio),
      debounce: column((v) => site.ticks(v.throttle_time_s)),
      release: column((v) => site.ticks(v.throttle_release_s)),
    },
    sledPower,
  );
  const places = scenario.sleds.map(({ id, values }) => ({
    contact: bars.names.indexOf(`${id}.contact`),
    capacitors: [capacitors.names.indexOf(`${id}.input`), capacitors.names.indexOf(`${id}.ceramic`)],
    inrush_A: values.inrush_current_A,
  }));
  const hotSwap = new HotSwap(site, places, sledGuard);
  const brake = new Brake(site, scenario.firmware.brake, sightOf(site, sources), sledPower);
  return { sledPower, sledGuard, hotSwap, sledWatchers: [brake, throttle, sledGuard, hotSwap] };
}

/** For how long after the brake is told the sleds' power still falls [s]. */
const falling_s = 0.02;

/** What the supervisor sees of shelves and batteries. */
function sightOf(site: Site, sources: BrakeSources): BrakeSight {
  const { shelves, batteries } = site;
  const { acSignal, walkIn, handover, smoothing } = sources;
  return {
    shelvesOut() {
      let out = 0;
      for (let k = 0; k < shelves.count; k++) if (walkIn.isOut(k)) out++;
      return out;
    },
    areBatteriesSpent(reserve_ratio) {
      if (!acSignal.lost && walkIn.isOver()) return false;
      for (let k = 0; k < batteries.count; k++) if (!handover.isSpent(k, reserve_ratio)) return false;
      return true;
    },
    told(tick) {
      smoothing.follow(tick + site.ticks(falling_s));
    },
  };
}
