/** A run with a record far larger than the engine keeps: a pulse train of so many points in twenty channels. */
import type { Bundle } from '../../src/bundle/format.ts';
import { syntheticRun } from '../../tests/fixtures/run.ts';

const duration_s = 30;
const channels_count = 20;

/** What a panel needs is kept before the rest of the catalogue. */
const wanted = [
  'total.load_W',
  'total.shelves_W',
  'total.trays_W',
  'total.batteries_W',
  'total.capacitors_W',
  'total.ac_power_W',
  'total.line_current_A',
  'S1.current_A',
  'S2.current_A',
  'T1.charge_ratio',
  'T2.charge_ratio',
  'sled-8.voltage_V',
  'A.S1.voltage_V',
];

/** Every value is that of the small run at the time, with a ripple over it so that no two neighbours are alike. */
export function largeRun(points_count: number): Bundle {
  const small = syntheticRun(duration_s);
  const { recording } = small.result;
  const rest = recording.channels.filter(({ id }) => !wanted.includes(id)).map(({ id }) => id);
  const ids = [...wanted, ...rest].slice(0, channels_count);
  const places = ids.map((id) => recording.channels.findIndex((channel) => channel.id === id));
  const edges_s = Float64Array.from({ length: points_count + 1 }, (_, b) => (b * duration_s) / points_count);
  const bucketOf = new Int32Array(points_count);
  for (let b = 0, own = 0; b < points_count; b += 1) {
    while (own < recording.bucketCount - 1 && recording.edges_s[own + 1]! <= edges_s[b]!) own += 1;
    bucketOf[b] = own;
  }
  const column = (of: readonly Float32Array[], place: number, sign: number): Float32Array => {
    const values = new Float32Array(points_count);
    for (let b = 0; b < points_count; b += 1) {
      const value = of[place]![bucketOf[b]!]!;
      values[b] = value + sign * 1e-3 * Math.abs(value) * (1 + Math.sin(b));
    }
    return values;
  };
  return {
    ...small,
    result: {
      ...small.result,
      recording: {
        channels: places.map((place) => recording.channels[place]!),
        bucketCount: points_count,
        edges_s,
        min: places.map((place) => column(recording.min, place, -1)),
        max: places.map((place) => column(recording.max, place, 1)),
        mean: places.map((place) => column(recording.mean, place, 0)),
        closeUps: [],
      },
    },
  };
}
