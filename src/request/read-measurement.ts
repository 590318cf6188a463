import { channelsOf } from '../engine/gauge.ts';
import type { Measurement } from '../measured/measurement.ts';
import { MeasuredReader } from '../measured/read-measured.ts';
import { assemble } from '../network/network.ts';
import type { Scenario } from '../scenario/scenario.ts';
import type { InputSource } from './input-source.ts';
import type { AskedMeasurement } from './run-request.ts';

/** Reads a measurement for the channels of the scenario. What is missing or unclear is BadInput. */
export function readMeasurement(
  source: InputSource,
  { file, time, dates, decimal, sentinel, map, sensors }: AskedMeasurement,
  scenario: Scenario,
): Measurement {
  const reader = new MeasuredReader(
    file,
    {
      time,
      dates,
      decimal,
      sentinel,
      map: new Map(map.map(({ column, channel }) => [column, channel])),
      sensors: new Map(sensors.map(({ of, sensor }) => [of, sensor])),
    },
    channelsOf(assemble(scenario)),
  );
  return reader.finish(source.pieces(file, (text) => reader.push(text)));
}
