/**
 * Where firmware runs: its clock, its log, and the ports of the devices, the only way from firmware to a device. A port
 * senses by name (`site.intakes.bulk_V(k)`), commands by name (`site.shelves.run(k, true)`) and carries out the jumps of
 * its kind; no firmware file knows where a state stands.
 */
import type { Ports } from '../devices/ports.ts';
import type { Log } from '../events/log.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { plainLoops, type TrayLoops } from './tray/tray-loops.ts';

export interface Site extends Ports {
  readonly tick_s: number;
  /** Of the bus. */
  readonly nominal_V: number;
  readonly log: Log;
  /** What is done of every tray at each run of their task. */
  readonly loops: TrayLoops;
  /** Sampling period of all supervision [ticks]. */
  readonly supervision: number;
  /** Time after which a loss of AC counts [ticks]. */
  readonly detection: number;
  /** A time in whole ticks, the nearest. */
  ticks(time_s: number): number;
}

export function siteOf(
  { tick_s, nominal_V, firmware }: Scenario,
  ports: Ports,
  log: Log,
  loops: TrayLoops = plainLoops,
): Site {
  const ticks = (time_s: number): number => Math.round(time_s / tick_s);
  const { period_s, detection_s } = firmware.supervisor;
  return {
    ...ports,
    tick_s,
    nominal_V,
    log,
    loops,
    ticks,
    supervision: ticks(period_s),
    detection: ticks(detection_s),
  };
}
