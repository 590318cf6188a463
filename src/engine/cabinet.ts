/** A cabinet ready to run: network, firmware, stepper and ladder, settled on its load. */
import { portsOf } from '../devices/ports.ts';
import { Log } from '../events/log.ts';
import { type Controls, wire } from '../firmware/controls.ts';
import type { Demand } from '../loads/demand.ts';
import type { Network } from '../network/network.ts';
import type { KernelChoice } from './fast/kernel-form.ts';
import { Ladder } from './ladder.ts';
import { Settler } from './settle.ts';
import { Stepper } from './stepper.ts';

export interface Cabinet {
  readonly network: Network;
  readonly demand: Demand;
  readonly controls: Controls;
  readonly stepper: Stepper;
  readonly ladder: Ladder;
  readonly log: Log;
  modeRetries: number;
  unsettled: number;
  steps: number;
}

/** Smoothed load that a first-order lag of the demand would show at tick 0 of its periodic cycle [W]. */
function smoothedAtStart(demand: Demand, shares: Float64Array, period: number, lag: number): number {
  const points = 4000;
  const out = new Float64Array(demand.profileCount);
  const weights = new Float64Array(demand.profileCount);
  for (let k = 0; k < shares.length; k++) weights[demand.profileOf[k]!]! += shares[k]!;
  const keep = 1 - period / points / lag;
  let w = 0;
  let fade = 1;
  for (let k = 0; k < points; k++) {
    demand.at(out, Math.floor(((k + 0.5) / points) * period));
    const load = out.reduce((sum, p, c) => sum + p * weights[c]!, 0);
    w = keep * w + (1 - keep) * load;
    fade *= keep;
  }
  return w / (1 - fade);
}

/** A cabinet that does not start as it was built. */
export interface Arrangement {
  /** Where the trays' smoothed load stands [W]; null: settled on the load at the start. */
  readonly smoothed_W: number | null;
  /** Changes who runs and what events have changed, before the cabinet settles. */
  arrange(cabinet: Pick<Cabinet, 'network' | 'controls' | 'stepper' | 'log'>): void;
}

/**
 * Builds and settles a cabinet. Slow states settle on the load's mean (recorded loads), on where a periodic
 * load's cycle begins, or on the load at the start (constant and step).
 */
export function ready(
  network: Network,
  demand: Demand,
  refine: number,
  kernel?: KernelChoice,
  arrangement?: Arrangement,
): Cabinet {
  const { scenario } = network;
  const log = new Log(scenario.tick_s);
  const stepper = new Stepper(network, demand, scenario.tick_s, kernel);
  const plant = { x: stepper.x0, v: stepper.v0, restamp: () => stepper.restamp() };
  const controls = wire(scenario, portsOf(network, plant), log, stepper.kernel);
  const ladder = new Ladder(
    Math.round(scenario.step_s / scenario.tick_s),
    refine,
    scenario.nominal_V,
    scenario.rated_W,
    scenario.tick_s,
  );
  const lag = scenario.firmware.smoothing.time_constant_s / scenario.tick_s;
  const smoothed =
    scenario.load.kind === 'recorded' ||
    demand.settlesOnMean === true ||
    (scenario.load.kind === 'pulse-train' && demand.period_ticks === null)
      ? demand.mean_W
      : demand.period_ticks !== null && scenario.load.kind === 'pulse-train'
        ? smoothedAtStart(demand, network.sleds.columns.share_ratio, demand.period_ticks, lag)
        : null;
  arrangement?.arrange({ network, controls, stepper, log });
  const start_W = arrangement === undefined ? smoothed : arrangement.smoothed_W;
  const settle = (): void => new Settler(stepper, controls.share, controls.smoothing).settle(start_W);
  const { law } = controls.share;
  if (law === null) settle();
  else law.search(settle);
  for (const { signal } of controls.tasks) signal.settle();
  for (const loop of controls.voltageLoops) loop.settle();
  law?.settle(controls.share.trim_V);
  controls.smoothing.law?.settle(controls.smoothing.smoothed_W, network.trays.command_W);
  return { network, demand, controls, stepper, ladder, log, modeRetries: 0, unsettled: 0, steps: 0 };
}
