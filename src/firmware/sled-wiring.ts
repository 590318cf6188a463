/** The sleds' firmware of a cabinet and the supervisor's brake on them, wired to their devices. */
import type { Bars } from '../devices/bar/bar.ts';
import type { Capacitors } from '../devices/capacitor/capacitor.ts';
import type { Intakes } from '../devices/intake/intake.ts';
import type { Packs } from '../devices/pack/pack.ts';
import type { Sleds } from '../devices/sled/sled.ts';
import type { Log } from '../events/log.ts';
import type { Scenario } from '../scenario/scenario.ts';
import type { AcSignal } from './ac-signal.ts';
import { Brake, type BrakeSight } from './brake.ts';
import type { Handover } from './handover.ts';
import { HotSwap } from './hot-swap.ts';
import { restartDelays } from './restart-delays.ts';
import { SledGuard } from './sled-guard.ts';
import { SledPower } from './sled-power.ts';
import { SledThrottle } from './sled-throttle.ts';
import type { Smoothing } from './smoothing.ts';
import type { Plant, Watcher } from './task.ts';
import type { WalkIn } from './walk-in.ts';

export interface SledDevices {
  readonly bars: Bars;
  readonly capacitors: Capacitors;
  readonly intakes: Intakes;
  readonly packs: Packs;
  readonly sleds: Sleds;
}

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

export function wireSleds(
  scenario: Scenario,
  devices: SledDevices,
  sources: BrakeSources,
  plant: Plant,
  log: Log,
): SledControls {
  const { tick_s, firmware } = scenario;
  const { bars, capacitors, sleds } = devices;
  const ticks = (seconds: number): number => Math.round(seconds / tick_s);
  const column = (read: (values: Scenario['sleds'][number]['values']) => number): Float64Array =>
    Float64Array.from(scenario.sleds, ({ values }) => read(values));

  const sledPower = new SledPower(sleds);
  const sledGuard = new SledGuard(
    {
      cutOff_V: column((v) => v.cut_off_voltage_V),
      restart_V: column((v) => v.restart_voltage_V),
      cutOff: column((v) => ticks(v.cut_off_time_s)),
      restart: restartDelays(scenario),
      ramp: column((v) => ticks(v.restart_ramp_s)),
    },
    sleds,
    sledPower,
    plant,
    log,
  );
  const throttle = new SledThrottle(
    {
      threshold_V: column((v) => v.throttle_voltage_V),
      hysteresis_V: column((v) => v.throttle_hysteresis_V),
      level: column((v) => v.throttle_level_ratio),
      debounce: column((v) => ticks(v.throttle_time_s)),
      release: column((v) => ticks(v.throttle_release_s)),
    },
    sleds,
    sledPower,
    plant,
    log,
  );
  const places = scenario.sleds.map(({ id, values }) => ({
    contact: bars.names.indexOf(`${id}.contact`),
    capacitors: [capacitors.names.indexOf(`${id}.input`), capacitors.names.indexOf(`${id}.ceramic`)],
    inrush_A: values.inrush_current_A,
  }));
  const hotSwap = new HotSwap(places, tick_s, devices, sledGuard, plant, log);
  const brake = new Brake(firmware.brake, tick_s, sightOf(devices, sources, tick_s), sleds, sledPower, log);
  return { sledPower, sledGuard, hotSwap, sledWatchers: [brake, throttle, sledGuard, hotSwap] };
}

/** What the supervisor sees of shelves and batteries. */
/** For how long after the brake is told the sleds' power still falls [s]. */
const falling_s = 0.02;

function sightOf({ intakes, packs }: SledDevices, sources: BrakeSources, tick_s: number): BrakeSight {
  const { acSignal, walkIn, handover, smoothing } = sources;
  return {
    shelvesOut() {
      let out = 0;
      for (let k = 0; k < intakes.count; k++) if (walkIn.isOut(k)) out++;
      return out;
    },
    areBatteriesSpent(reserve_ratio) {
      if (!acSignal.lost && walkIn.isOver()) return false;
      for (let k = 0; k < packs.count; k++) if (!handover.isSpent(k, reserve_ratio)) return false;
      return true;
    },
    told(tick) {
      smoothing.follow(tick + Math.round(falling_s / tick_s));
    },
  };
}
