/** Runs a network under a demand and returns everything it showed. */
import { lookOn, type TimedWitness } from '../firmware/law-run.ts';
import type { Demand } from '../loads/demand.ts';
import type { Network } from '../network/network.ts';
import { advance } from './advance.ts';
import { stepEnd } from './agenda.ts';
import type { Cabinet } from './cabinet.ts';
import { started } from './cycle/start.ts';
import type { KernelChoice } from './fast/kernel-form.ts';
import { firmwareAgenda } from './firmware-agenda.ts';
import { putEvents } from './happen/put-events.ts';
import type { WaveformOrder } from './meters/waveforms.ts';
import type { Failure, Result } from './result.ts';
import { statusOf } from './status.ts';
import { unshown } from './unshown.ts';
import { Watch } from './watch.ts';

export interface SimulateOptions {
  /** Voltage levels at which stays are metered, ascending [V]. */
  readonly levels_V: Float64Array;
  /** Lengths over which is metered what sleds and battery shelves keep up [s]. */
  readonly sustained_s?: readonly number[];
  /** All rungs of the ladder divided by this; 1 by default. */
  readonly refine?: number;
  /** The plain kernel instead of the compiled one (same bits). */
  readonly kernel?: KernelChoice;
  /** Channels to be streamed beside AC power, for comparing with a measurement. */
  readonly streamed?: readonly string[];
  /** Rows of chosen channels, handed out while the run goes on; they change nothing of it. */
  readonly waveforms?: readonly WaveformOrder[];
  /** Looks on at every run of the firmware's laws, at its tick; it changes nothing of the run. */
  readonly witness?: TimedWitness;
  readonly onProgress?: (fraction: number) => void;
  readonly shouldStop?: () => boolean;
}

/** Judged window in ticks: after the warm-up, whole periods where there is one. */
function window(cabinet: Cabinet, end: number): { from: number; to: number } {
  const { scenario } = cabinet.network;
  const from = Math.round(scenario.warm_up_s / scenario.tick_s);
  const period = cabinet.demand.period_ticks;
  const whole = period === null ? 0 : Math.floor((end - from) / period) * period;
  return { from, to: whole > 0 ? from + whole : end };
}

/** Simulates the scenario of `network` under `demand`. Throws BadInput where no operating point exists. */
export function simulate(network: Network, demand: Demand, options: SimulateOptions): Result {
  const { scenario } = network;
  const { tick_s } = scenario;
  const { cabinet, cycles } = started(network, demand, options.refine ?? 1, options.kernel);
  const { network: built, stepper, controls, log } = cabinet;

  const { witness } = options;
  if (witness !== undefined) {
    const { share, batteryShare, smoothing, voltageLoops } = controls;
    const tasks = [share, ...(batteryShare === null ? [] : [batteryShare]), smoothing, ...voltageLoops];
    lookOn(tasks, (...run) => witness(log.tick, ...run));
  }
  const end = Math.round(scenario.duration_s / tick_s);
  const { from, to } = window(cabinet, end);
  const watch = new Watch(cabinet, {
    from,
    to,
    end,
    levels_V: options.levels_V,
    sustained_s: options.sustained_s ?? [],
    streamed: options.streamed ?? [],
    ...(options.waveforms === undefined ? {} : { waveforms: options.waveforms }),
    onProgress: options.onProgress ?? (() => {}),
    shouldStop: options.shouldStop ?? (() => false),
  });
  const agenda = firmwareAgenda(cabinet, 0);
  putEvents(cabinet, agenda, {
    removed: (owner, energy_J) => watch.audit.remove(owner, energy_J),
    happened: (tick) => {
      watch.audit.resume(stepper.x0, stepper.v0);
      watch.edge(tick, 'event');
    },
  });
  for (const edge of [from, to]) if (edge > 0 && edge < end) agenda.add(edge, 0, stepEnd);

  const { ending, tick } = advance(cabinet, agenda, 0, end, watch);
  for (const meter of watch.waveforms) meter.close();
  if (cabinet.unsettled > 0) tellUnsettled(cabinet, tick);
  const failure = ending === 'not-finite' ? notFinite(cabinet, tick) : watch.failure;
  const audit = watch.auditAtEnd ?? watch.audit.reading(stepper.x0);
  return {
    status: ending === 'not-finite' ? 'non_finite' : statusOf(audit, watch.failure, watch.stopped),
    failure,
    window: { from_s: from * tick_s, to_s: watch.judgedTo * tick_s },
    recording: watch.recorder.recording(watch.judgedTo >= tick),
    extremes: watch.recorder.readings(),
    stays: watch.stays.reading(watch.judgedTo),
    meanSquares: watch.meanSquares.readings(),
    rounds: watch.rounds.readings(),
    means: watch.windows.reading(),
    sustained: watch.windows.sustainedReadings(),
    streams: watch.streams.readings(),
    share: watch.share.reading(),
    swings: watch.swings.reading(watch.judgedTo),
    audit,
    log: log.entries,
    spans: log.spans.readings(tick, tick_s),
    bars: built.bars.names.map((id, k) => ({ id, resistance_ohm: built.bars.resistance_ohm[k]! })),
    unshown: unshown(scenario.events, demand.content, tick_s, {
      from_s: from * tick_s,
      to_s: watch.judgedTo * tick_s,
    }),
    counters: {
      step_s: scenario.step_s / (options.refine ?? 1),
      steps: cabinet.steps,
      states: network.stateCount,
      nodes: network.nodeCount,
      branches: network.bars.count,
      mode_retries: cabinet.modeRetries,
      unsettled_steps: cabinet.unsettled,
      corrections: stepper.solves - cabinet.steps,
      factorisations: stepper.factorisations,
      cycles_to_converge: cycles,
    },
  };
}

/** Steps that do not settle at a tick are no numbers to rely on: the log says so, beside what the audit makes of it. */
function tellUnsettled({ log, unsettled }: Cabinet, tick: number): void {
  log.tick = tick;
  log.note(
    'engine',
    'event',
    `${unsettled} steps of one tick did not settle: currents do not sum to zero there`,
  );
}

/** Names the first state or voltage that is no longer a number. */
function notFinite(cabinet: Cabinet, tick: number): Failure {
  const { network, stepper } = cabinet;
  const time_s = tick * network.scenario.tick_s;
  for (const device of network.devices) {
    for (const state of device.states) {
      for (let k = 0; k < device.count; k++) {
        const place = device.place(state, k);
        if (Number.isFinite(stepper.x1[place]!)) continue;
        const name = `${device.names[k]} ${state}`;
        return { time_s, name, last_finite: stepper.x0[place]!, cause: `${name} is no longer a number` };
      }
    }
  }
  const k = stepper.v1.findIndex((v) => !Number.isFinite(v));
  const name = `${network.topology.nodes[Math.max(0, k)]} voltage_V`;
  return { time_s, name, last_finite: stepper.v0[Math.max(0, k)]!, cause: `${name} is no longer a number` };
}
