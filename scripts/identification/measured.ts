/** What an instrument would have written of a run: its readings at its stamps, with noise. */
import type { Random } from '../../src/loads/random.ts';
import { unitOfChannel } from '../../src/measured/measured-unit.ts';
import type { MeasuredColumn, Measurement } from '../../src/measured/measurement.ts';
import { usualClock } from '../../src/measured/precision.ts';
import { accuracyOf, allowedBias } from '../../src/measured/sensor/accuracy.ts';
import { readSensor } from '../../src/measured/sensor/read-sensor.ts';
import type { Sensor } from '../../src/measured/sensor/sensor.ts';
import type { IdentificationBench, Probe } from './benches.ts';
import type { Rows } from './every-step.ts';
import { readingOf } from './instrument.ts';

/** A measurement that only names what is measured. */
export function channelsWanted({ probes }: Pick<IdentificationBench, 'probes'>): Measurement {
  const none = new Float64Array(0);
  return {
    file: '',
    sha256: '',
    columns: probes.map((probe) => columnOf(probe, none, none)),
    remarks: [],
    warnings: [],
  };
}

/** An instrument reads what is there, or is off by a gain and a bias anywhere within its class and by a usual clock, drawn each time. */
export type Instruments = 'exact' | 'within their class';

/** Stamps from the bench's first one to the end of the run; noise is normal. */
export function measuredOn(
  { name, probes, at_s, interval_s }: IdentificationBench,
  rows: Rows,
  random: Random,
  instruments: Instruments = 'exact',
): Measurement {
  const fast = instruments === 'exact' ? 0 : usualClock * random.gaussian();
  const columns = probes.map((probe): MeasuredColumn => {
    const reading = readingOf(rows, probe.channel, sensorOf(probe));
    const count = Math.floor((rows.window.to_s - at_s) / interval_s - 0.5);
    const time_s = Float64Array.from({ length: count }, (_, k) => k * interval_s);
    const values = time_s.map((t) => reading(at_s + t / (1 + fast)) + probe.noise * random.gaussian());
    return columnOf(probe, time_s, instruments === 'exact' ? values : misread(probe, values, random));
  });
  return { file: `${name}.csv`, sha256: '', columns, remarks: [], warnings: [] };
}

/** By a gain about their mean and a bias, each as likely anywhere within the class. */
function misread(probe: Probe, values: Float64Array, random: Random): Float64Array {
  const { channel } = probe;
  const accuracy = accuracyOf(unitOfChannel(channel), sensorOf(probe));
  const about = values.reduce((sum, value) => sum + value, 0) / values.length;
  const largest = values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const drawn = (most: number): number => most * (2 * random.uniform() - 1);
  const gain = 1 + drawn(accuracy.gain_ratio);
  const bias = drawn(allowedBias(accuracy, about, largest));
  return values.map((value) => about + gain * (value - about) + bias);
}

/** The same bench with instruments that are declared to be exact. */
export function withExactInstruments(bench: IdentificationBench): IdentificationBench {
  const probes = bench.probes.map((probe) => {
    const kind = probe.sensor ?? (probe.channel.endsWith('_V') ? 'divider' : 'shunt');
    return { ...probe, sensor: `${kind}, gain 0 %, bias 0 %` };
  });
  return { ...bench, probes };
}

export function sensorOf({ channel, sensor }: Probe): Sensor | undefined {
  if (sensor === undefined) return undefined;
  const read = readSensor(sensor, unitOfChannel(channel));
  if ('found' in read) throw new RangeError(read.found);
  return read;
}

function columnOf(probe: Probe, time_s: Float64Array, values: Float64Array): MeasuredColumn {
  const { channel } = probe;
  const sensor = sensorOf(probe);
  return { column: channel, channel, time_s, values, ...(sensor === undefined ? {} : { sensor }) };
}
