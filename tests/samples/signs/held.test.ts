/** A voltage that follows its current at every edge but one, where its readings are held; and honest ones. */
import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/loads/random.ts';
import { readRecorded } from '../../../src/loads/recorded/read-recorded.ts';
import { held } from '../../../src/samples/signs/held.ts';
import { channel } from './known-signal.ts';

const count = 4000;
const edge = 900;
const isHigh = (k: number): boolean => (k + 100) % 400 < 200;

interface Meter {
  readonly noise_V: number;
  readonly decimals: number;
  readonly seed?: number;
}

/** Current in pulses of 200 samples, and the voltage of a droop of 1.2 mΩ as a meter writes it. */
function pulses({ noise_V, decimals, seed = 1 }: Meter): { current: Float64Array; voltage: Float64Array } {
  const random = new Random(seed);
  const current = Float64Array.from({ length: count }, (_, k) =>
    Number(((isHigh(k) ? 250 : 60) + 0.5 * random.gaussian()).toFixed(2)),
  );
  const voltage = current.map((i) =>
    Number((50.6 - 0.0012 * i + noise_V * random.gaussian()).toFixed(decimals)),
  );
  return { current, voltage };
}

const heldIn = (voltage: Float64Array, current: Float64Array) =>
  held(channel(voltage, 'voltage'), channel(current, 'current'));

const freeze = (voltage: Float64Array, samples: number): Float64Array =>
  voltage.map((v, k) => (k >= edge - 2 && k < edge - 2 + samples ? voltage[edge - 3]! : v));

const meters: readonly (readonly [string, Meter])[] = [
  ['of 1 mV', { noise_V: 0.004, decimals: 3 }],
  ['of 10 mV', { noise_V: 0.004, decimals: 2 }],
  ['of 0.1 V', { noise_V: 0.004, decimals: 1 }],
  ['without noise', { noise_V: 0, decimals: 3 }],
];

describe.each(meters)('a voltage %s', (_, meter) => {
  const { current, voltage } = pulses(meter);

  test.each([6, 12, 40])('that is held over an edge for %d samples is told, with where', (samples) => {
    const [sign, ...more] = heldIn(freeze(voltage, samples), current);
    expect(more).toEqual([]);
    expect(sign).toMatchObject({ kind: 'frozen', channel: 'voltage' });
    expect(sign!.shows).toMatch(/while current moves by .* and follows 19 other such edges/);
  });

  test('that follows everywhere is not', () => {
    expect(heldIn(voltage, current)).toEqual([]);
  });
});

describe('not told is', () => {
  test.each([3, 5, 8, 20])('a meter renewed at every %d readings', (every) => {
    for (let seed = 1; seed <= 20; seed++) {
      const { current, voltage } = pulses({ noise_V: 0.004, decimals: 3, seed });
      const phase = seed % every;
      const slow = voltage.map((_, k) => voltage[Math.max(0, k - ((k + 7 * seed + phase) % every))]!);
      expect(heldIn(slow, current)).toEqual([]);
    }
  });

  test('one whose readings come three samples behind', () => {
    const { current, voltage } = pulses({ noise_V: 0, decimals: 3 });
    expect(
      heldIn(
        voltage.map((_, k) => voltage[Math.max(0, k - 3)]!),
        current,
      ),
    ).toEqual([]);
  });

  test('one that does not know the current', () => {
    const { current } = pulses({ noise_V: 0, decimals: 3 });
    expect(heldIn(new Float64Array(count).fill(50.1), current)).toEqual([]);
  });
});

test('a recording of both says so', () => {
  const { current, voltage } = pulses({ noise_V: 0.004, decimals: 3 });
  const frozen = freeze(voltage, 12);
  const rows = [...current].map((i, k) => `${(k / 1000).toFixed(3)},${frozen[k]!.toFixed(3)},${i}`);
  const { statement } = readRecorded(['time_s,voltage_V,current_A', ...rows].join('\n'), {
    file: 'a.csv',
    sha256: '',
  });
  expect(statement.signs).toEqual([expect.objectContaining({ kind: 'frozen', channel: 'voltage_V' })]);
});
