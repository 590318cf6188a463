/** Everything that looks on during a run: recorder, meters, and what ends a run early. */
import type { Int } from '../base/int.ts';
import type { Sleds } from '../devices/sled/sled.ts';
import type { Observer } from './advance.ts';
import { outside } from './bounds.ts';
import type { Cabinet } from './cabinet.ts';
import { Gauge } from './gauge.ts';
import { Look, seen } from './look.ts';
import { AuditMeter } from './meters/audit.ts';
import { LimitMeter } from './meters/limit-meter.ts';
import { MeanSquareMeter } from './meters/mean-square.ts';
import { RoundMeter } from './meters/rounds.ts';
import { ShareMeter } from './meters/share-meter.ts';
import { StayMeter } from './meters/stay-meter.ts';
import { StreamMeter } from './meters/streams.ts';
import { SwingMeter } from './meters/swing-meter.ts';
import { WaveformMeter, type WaveformOrder } from './meters/waveforms.ts';
import { WindowMeter } from './meters/window-means.ts';
import { Recorder } from './record/recorder.ts';
import type { Audit, Failure } from './result.ts';
import { Story } from './story.ts';

/** Steps between two looks at progress and a wish to stop. */
const block = 4096;

/** A load without a period is taken in rounds of this length [s]. */
const unitRound_s = 1;

export interface WatchOptions {
  readonly from: number;
  readonly to: number;
  readonly end: number;
  readonly levels_V: Float64Array;
  /** Lengths over which is metered what sleds and battery shelves keep up [s]. */
  readonly sustained_s?: readonly number[];
  /** Channels streamed beside AC power, which every run streams for its spectra. */
  readonly streamed?: readonly string[];
  /** Rows that leave the run while it goes on, for each who takes them at its own pace. */
  readonly waveforms?: readonly WaveformOrder[];
  readonly onProgress: (fraction: number) => void;
  readonly shouldStop: () => boolean;
}

export class Watch implements Observer {
  readonly gauge: Gauge;
  readonly recorder: Recorder;
  readonly stays: StayMeter;
  readonly meanSquares: MeanSquareMeter;
  readonly rounds: RoundMeter;
  readonly windows: WindowMeter;
  readonly streams: StreamMeter;
  readonly share: ShareMeter;
  readonly swings: SwingMeter;
  readonly audit: AuditMeter;
  readonly waveforms: readonly WaveformMeter[];
  private readonly story: Story;
  private readonly limits: LimitMeter;
  failure: Failure | null = null;
  stopped = false;
  /** Tick up to which the meters have judged. */
  judgedTo: number;
  private judging = false;
  private readonly look: Look;
  /** Sleds as last minded: which are there, as of that many changes. */
  private readonly present: Uint8Array;
  private changes = 0;
  private readonly cabinet: Cabinet;
  private readonly options: WatchOptions;

  constructor(cabinet: Cabinet, options: WatchOptions) {
    const { network, controls, stepper } = cabinet;
    const { tick_s } = network.scenario;
    const mostTicks = cabinet.ladder.rungs.at(-1)!;
    this.cabinet = cabinet;
    this.options = options;
    this.present = new Uint8Array(network.sleds.count).fill(1);
    this.judgedTo = options.from;
    this.gauge = new Gauge(network);
    const { channels } = this.gauge;
    this.gauge.read(stepper.x0, stepper.v0, controls.smoothing.smoothed_W);
    this.recorder = new Recorder(channels, options.end, tick_s, stepper.kernel);
    this.stays = new StayMeter(network.topology.nodes, options.levels_V, tick_s);
    const rms = ['bar-current', 'shelf-current', 'tray-current', 'bank-current', 'battery-current'];
    this.meanSquares = new MeanSquareMeter(
      channels
        .map(({ id, kind }, index) => ({ id, kind, index }))
        .filter(
          ({ id, kind }) => rms.includes(kind) || id === 'total.line_current_A' || id === 'total.ac_power_W',
        ),
    );
    const round = cabinet.demand.period_ticks ?? Math.round(unitRound_s / tick_s);
    this.rounds = new RoundMeter(this.meanSquares, options.from, round, tick_s);
    const ticks = options.to - options.from;
    const { from, sustained_s = [] } = options;
    this.windows = new WindowMeter(channels, network, { from, ticks, mostTicks, tick_s, sustained_s });
    this.streams = new StreamMeter(
      [...new Set(['total.ac_power_W', ...(options.streamed ?? [])])].map((id) => ({
        id,
        index: this.gauge.indexOf(id),
      })),
      options.from,
      mostTicks,
      tick_s,
      ticks,
    );
    this.share = new ShareMeter(network, controls.sharing, tick_s);
    this.swings = new SwingMeter(channels, network, cabinet.demand.profileOf);
    this.story = new Story(network, stepper, controls.shelfGuard, cabinet.log);
    this.limits = new LimitMeter(network, stepper.step.ends, controls.shelfGuard, cabinet.log.spans);
    this.audit = new AuditMeter(network, this.gauge);
    this.waveforms = (options.waveforms ?? []).map(
      (order) => new WaveformMeter(channels, order, mostTicks, tick_s),
    );
    const { gauge, limits, meanSquares, stays, audit, streams, share } = this;
    const { closing } = this.recorder;
    const { zigzag } = this.swings;
    const loadZigzag = this.swings.load.zigzag;
    const windows = this.windows.bins;
    const lookers = {
      gauge,
      closing,
      limits,
      meanSquares,
      stays,
      audit,
      zigzag,
      loadZigzag,
      windows,
      streams,
      share,
    };
    this.look = new Look(stepper.step, lookers);
    stepper.kernel.hold('Look', this.look);
    stepper.kernel.hold('Closing', closing);
    this.recorder.start(0, this.gauge.values);
    for (const meter of this.waveforms) meter.start(this.gauge.values);
  }

  edge(tick: number, by: 'load' | 'event' | 'guard'): void {
    this.share.edge(tick);
    this.recorder.edge(tick);
    // What the cabinet does by itself ends no swing: a limit that comes and goes may be part of one.
    if (this.judging && by !== 'guard') this.swings.edge(tick);
  }

  /** Sleds that have left the bus are set aside from `tick` on, those that are back are judged again. */
  private minds(sleds: Sleds, tick: number): void {
    this.changes = sleds.changes;
    this.recorder.cut(this.gauge.values, tick < this.options.to);
    for (let k = 0; k < sleds.count; k++) {
      if (sleds.present[k] === this.present[k]) continue;
      this.present[k] = sleds.present[k]!;
      // The catalogue begins with the nodes' voltages, in the nodes' order.
      const n = sleds.node[k]!;
      if (this.present[k]) this.stays.join(n, tick, this.cabinet.stepper.v0[n]!);
      else this.stays.leave(n, tick);
      this.recorder.setAside(n, !this.present[k]);
    }
  }

  private begin(tick: number): void {
    const { stepper, controls } = this.cabinet;
    const { x0, v0 } = stepper;
    this.judging = true;
    this.gauge.read(x0, v0, controls.smoothing.smoothed_W);
    const { values } = this.gauge;
    this.recorder.cut(values, false);
    this.stays.start(tick, v0);
    this.meanSquares.start(values);
    this.windows.start(values);
    this.streams.start(values);
    this.audit.start(x0, v0);
    this.swings.start(tick);
  }

  /** What every step costs. */
  private looks(tick0: number, tick1: number, judged: boolean): Int {
    const { stepper, controls } = this.cabinet;
    const { kernel, v0, v1 } = stepper;
    const saw = kernel.look(this.look, tick0, tick1, judged, controls.smoothing.smoothed_W);
    if ((saw & seen.full) !== 0) this.recorder.leafDone();
    if (!judged) return saw;
    const ticks = tick1 - tick0;
    this.meanSquares.count(ticks);
    if ((saw & seen.windowed) !== 0) this.windows.keep();
    if ((saw & seen.sampled) !== 0) this.streams.keep();
    if ((saw & seen.crossed) !== 0) this.stays.take(tick0, v0, tick1, v1);
    this.stays.count(ticks);
    return saw;
  }

  step(tick0: number, tick1: number): boolean {
    const { cabinet, options } = this;
    const { stepper, network } = cabinet;
    const { x1 } = stepper;
    if (!this.judging && tick0 >= options.from && tick0 < options.to) this.begin(tick0);
    const { sleds } = network;
    if (this.judging && sleds.changes !== this.changes) this.minds(sleds, tick0);
    const judged = this.judging && tick1 <= options.to;
    const { values } = this.gauge;
    if (judged) this.stays.turn(tick0, cabinet.controls.handover.isCarrying());
    const saw = this.looks(tick0, tick1, judged);
    for (const meter of this.waveforms) meter.step(tick0, tick1, values);
    if (judged) {
      this.swings.take(tick1, values, (saw & seen.turned) !== 0, (saw & seen.loadTurned) !== 0);
      this.rounds.step(tick1);
      this.judgedTo = tick1;
      if (tick1 === options.to) {
        this.auditAtEnd = this.audit.reading(x1);
        this.recorder.cut(values, true);
      }
    }
    const isLimited = (saw & seen.limited) !== 0;
    if (isLimited) this.limits.step();
    this.story.step(tick1, isLimited);
    const beyond = outside(stepper, network);
    if (beyond !== null) {
      const { name, voltage_V } = beyond;
      const cause = `${beyond.cause}${cabinet.controls.shelfGuard.outWords()}`;
      this.failure = { time_s: tick1 * network.scenario.tick_s, name, last_finite: voltage_V, cause };
      return false;
    }
    const { dead } = cabinet.controls.shelfGuard;
    if (dead !== null) {
      const { tick, last, cause } = dead;
      const time_s = tick * network.scenario.tick_s;
      this.failure = { time_s, name: last, last_finite: stepper.lowest_V, cause };
      return false;
    }
    if (cabinet.steps % block === 0) {
      options.onProgress(tick1 / options.end);
      if (options.shouldStop()) {
        this.stopped = true;
        return false;
      }
    }
    return true;
  }

  /**
   * The books at the end of the judged window, when it was reached: closed there and then, for what happens to the
   * cabinet after it (a bank shorts, modules fail) changes what its stores would be counted with.
   */
  auditAtEnd: Audit | null = null;
}
