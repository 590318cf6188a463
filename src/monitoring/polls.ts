/**
 * The ports of a scenario while it runs: takes the polled channels at the end of every step, and tells afterwards what
 * monitoring would have seen.
 */
import type { Channel } from '../channels/channel.ts';
import type { WaveformOrder } from '../engine/meters/waveforms.ts';
import { pollRound } from '../scenario/derived/poll-round.ts';
import type { PortSpec, Scenario } from '../scenario/scenario.ts';
import { beatOf } from './beat.ts';
import { boundsOf } from './bounds.ts';
import type { Monitoring, PolledChannel, PolledPort } from './monitoring.ts';
import { PollMeter } from './poll-meter.ts';
import { channelsOfDevice } from './polled-channels.ts';

interface Watch {
  readonly device: string;
  readonly channel: Channel;
  readonly meter: PollMeter;
}

export class Polls {
  readonly order: WaveformOrder;
  private readonly scenario: Scenario;
  private readonly watched: readonly (readonly Watch[])[];

  /** `channels`: every one that the run has. */
  constructor(scenario: Scenario, ports: readonly PortSpec[], channels: readonly Channel[]) {
    this.scenario = scenario;
    this.watched = ports.map((port) => watchesOf(port, scenario, channels));
    const all = this.watched.flat();
    this.order = {
      series: all.map(({ channel: { id } }) => ({ id, of: [id], usual: false })),
      pace: { kind: 'every-step' },
      take: (time_s, values) => {
        for (let k = 0; k < all.length; k++) all[k]!.meter.take(time_s, values[k]!);
      },
    };
  }

  /** The run is over, at `to_s`. `load_period_s`: of a load that repeats exactly. */
  seen(to_s: number, load_period_s: number | null): Monitoring {
    const { scenario, watched } = this;
    return {
      from_s: scenario.warm_up_s,
      to_s,
      ports: (scenario.monitoring ?? []).map((port, k) => portOf(port, watched[k]!, load_period_s)),
    };
  }
}

/** What polls a scenario's devices while it runs; null where it has no ports. `channels`: every one that the run has. */
export function pollsOf(scenario: Scenario, channels: readonly Channel[]): Polls | null {
  return scenario.monitoring === undefined ? null : new Polls(scenario, scenario.monitoring, channels);
}

function watchesOf(port: PortSpec, scenario: Scenario, channels: readonly Channel[]): Watch[] {
  const { values, polls } = port;
  const { device_s, asked_s } = pollRound(values, polls.length);
  const bounds = boundsOf(scenario);
  return polls.flatMap((device, k) =>
    channelsOfDevice(device, channels, scenario).map((channel) => ({
      device,
      channel,
      meter: new PollMeter(
        {
          first_s: values.first_s + k * device_s + asked_s,
          period_s: values.period_s,
          averaging_s: values.averaging_s,
          from_s: scenario.warm_up_s,
        },
        channel.kind === 'node-voltage' ? bounds : [],
      ),
    })),
  );
}

function portOf(
  { id, values, polls }: PortSpec,
  watches: readonly Watch[],
  load_period_s: number | null,
): PolledPort {
  const { device_s, round_s, most_in_period_count } = pollRound(values, polls.length);
  return {
    port: id,
    period_s: values.period_s,
    averaging_s: values.averaging_s,
    device_s,
    round_s,
    devices_count: polls.length,
    most_of_a_kind_count: values.most_of_a_kind_count,
    most_in_period_count,
    beat: load_period_s === null ? null : beatOf(values.period_s, load_period_s),
    channels: watches.flatMap((watch) => channelOf(watch) ?? []),
  };
}

function channelOf({ device, channel, meter }: Watch): PolledChannel | null {
  const [seen, truth] = [meter.seen(), meter.truth()];
  if (truth === null) return null;
  const swing = truth.max - truth.min;
  return {
    channel: channel.id,
    device,
    unit: channel.unit,
    time_s: meter.time_s,
    readings: meter.readings,
    seen,
    truth,
    seen_ratio: seen === null || !(swing > 0) ? null : (seen.max - seen.min) / swing,
    beyond: meter.found(),
  };
}
