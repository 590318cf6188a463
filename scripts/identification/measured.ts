/** What an instrument would have written of a run: the simulated streams at its stamps, with noise. */
import type { Result } from '../../src/engine/result.ts';
import type { Random } from '../../src/loads/random.ts';
import type { MeasuredColumn, Measurement } from '../../src/measured/measurement.ts';
import { simulatedAt } from '../../src/measured/simulated-at.ts';
import type { IdentificationBench } from './benches.ts';

/** A measurement that only names what is to be streamed. */
export function streamsWanted({ probes }: IdentificationBench): Measurement {
  const columns = probes.map(({ channel }) => columnOf(channel, new Float64Array(0), new Float64Array(0)));
  return { file: '', sha256: '', columns, remarks: [] };
}

/** Stamps from the bench's first one to the end of the run; noise is normal. */
export function measuredOn(
  { name, probes, at_s, interval_s }: IdentificationBench,
  { streams }: Result,
  random: Random,
): Measurement {
  const columns = probes.map(({ channel, noise }): MeasuredColumn => {
    const stream = streams.find((s) => s.channel === channel);
    if (stream === undefined) throw new RangeError(`no stream of ${channel}`);
    const end_s = stream.from_s + stream.samples.length / stream.rate_Hz;
    const count = Math.floor((end_s - at_s) / interval_s - 0.5);
    const time_s = Float64Array.from({ length: count }, (_, k) => k * interval_s);
    const values = time_s.map((t) => simulatedAt(stream, at_s + t) + noise * random.gaussian());
    return columnOf(channel, time_s, values);
  });
  return { file: `${name}.csv`, sha256: '', columns, remarks: [] };
}

function columnOf(channel: string, time_s: Float64Array, values: Float64Array): MeasuredColumn {
  return { column: channel, channel, time_s, values };
}
