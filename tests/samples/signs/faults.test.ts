/** Each fault of a sensor or a file shows as a sign of its kind, where it is. */
import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/loads/random.ts';
import { clippedBelow } from '../../../src/samples/signs/clipped-below.ts';
import { signSentence } from '../../../src/samples/signs/sign.ts';
import { signsOf } from '../../../src/samples/signs/signs-of.ts';
import { busy, changed, channel, short, signsIn } from './known-signal.ts';

const device = busy();
const other = busy(3000, 2);

describe('beside others:', () => {
  const late = (values: Float64Array, by: number): Float64Array => values.slice(80 - by, 3080 - by);
  const [one, two, three] = [1, 2, 3].map((seed) => busy(3200, seed)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];

  test.each([
    [15, ['b does what the others do, 300 ms later']],
    [-15, ['b does what the others do, 300 ms earlier']],
    // Less than a reading and a half may be the phase of its own clock.
    [1, []],
  ])('a channel late by %i samples', (by, told) => {
    const signs = signsIn(late(one, 0), late(two, by), late(three, 0));
    expect(signs.map(({ shows }) => shows)).toEqual(told);
  });

  test('one of two, one that a slow meter shows, and two that do nothing alike', () => {
    expect(short(signsIn(late(one, 0), late(two, 40)))).toEqual(['apart b 0 to 59.98']);
    const held = (by: number) => late(two, 0).map((_, k, all) => all[Math.max(0, k - (k % 4) - by)]!);
    expect(signsIn(late(one, 0), held(0)).map(({ kind }) => kind)).toEqual([]);
    expect(signsIn(late(one, 0), held(30)).map(({ kind }) => kind)).toEqual(['apart']);
    const noise = new Random(7);
    const other = late(two, 20).map((v) => v + 600 * noise.gaussian());
    expect(signsIn(late(one, 0), other)).toEqual([]);
  });
});

describe('in one channel:', () => {
  test('a sensor that froze', () => {
    expect(short(signsIn(changed(device, 1000, 1500, () => device[1000]!)))).toEqual([
      'frozen a 20 to 29.98',
    ]);
  });

  test('a sensor that froze three times, one of them to the end', () => {
    const frozen = [500, 1500, 2700].reduce(
      (values, at) => changed(values, at, at + 300, () => device[at]!),
      device,
    );
    expect(short(signsIn(frozen))).toEqual([
      'frozen a 10 to 15.98',
      'frozen a 30 to 35.98',
      'frozen a 54 to 59.98',
    ]);
  });

  test('a sensor that froze while the load rests, where it moves at rest elsewhere', () => {
    // The device idles for 15 samples of 75: an idle minute between two of them in which nothing moves.
    const idle = Float64Array.from(device.subarray(60, 75));
    const resting = Float64Array.from({ length: 3600 }, (_, k) =>
      k < 1500 || k >= 2100 ? device[k < 1500 ? k : k - 600]! : idle[7]!,
    );
    const noisy = Float64Array.from(resting, (v, k) => (k < 1500 || k >= 2100 ? v : idle[k % 15]!));
    expect(short(signsIn(resting)).filter((sign) => sign.startsWith('frozen'))).toEqual([
      'frozen a 30 to 41.98',
    ]);
    expect(short(signsIn(noisy)).filter((sign) => sign.startsWith('frozen'))).toEqual([]);
  });

  test('two devices in turns under one name, by their values or by their stamps', () => {
    const turns = Float64Array.from({ length: 3000 }, (_, k) => device[k]! + (k % 2 === 0 ? 0 : 400));
    expect(short(signsIn(turns))).toEqual(['interleaved a 0 to 59.98']);
    const pairs = (gap_s: number) =>
      signsOf([
        { ...channel(device), time_s: device.map((_, k) => 0.04 * Math.floor(k / 2) + (k % 2) * gap_s) },
      ]).signs.map(({ shows }) => shows);
    expect(pairs(0.0043)).toEqual(['stamps of a come in pairs: 4.3 ms and 35.7 ms apart in turns']);
    expect(pairs(0.014)).toEqual(['stamps of a come in pairs: 14 ms and 26 ms apart in turns']);
    // A clock whose ticks are a third, or a fifth, of the time between every other reading.
    for (const ticks of [3, 5]) expect(pairs((0.04 * (ticks - 1)) / 2 / ticks)).toEqual([]);
    // Stamps of a clock in whole steps, of 1.5 steps each: 1, 2, 1, 2.
    expect(pairs(0.0134)).toEqual([]);
  });

  test.each([3, 4, 5, 6, 7, 8])('%i devices in turns under one name, alike and apart', (n) => {
    const inTurns = (of: readonly Float64Array[]) =>
      signsIn(Float64Array.from({ length: 1200 * n }, (_, k) => of[k % n]![Math.floor(k / n)]!)).filter(
        ({ kind }) => kind === 'interleaved',
      );
    const random = new Random(n);
    // One load, seen by sensors that differ by 0.5 % each, with a noise of theirs.
    const alike = Array.from({ length: n }, (_, j) =>
      device.map((v) => (1 + 0.005 * j) * v + random.gaussian()),
    );
    // Loads of their own: each goes on and off when it likes.
    const alone = () => {
      let isOn = false;
      return device.map(() => {
        if (random.uniform() < 0.04) isOn = !isOn;
        return (isOn ? 900 : 300) + 8 * random.gaussian();
      });
    };
    const words = ['three', 'four', 'five', 'six', 'seven', 'eight'][n - 3];
    for (const of of [alike, Array.from({ length: n }, alone)])
      expect(inTurns(of).map(({ asks }) => asks)).toEqual([
        `${words} devices under one name, which would be summed, or a load that repeats itself at that rate?`,
      ]);
  });

  test('two alike devices in turns', () => {
    const twice = Float64Array.from({ length: 2400 }, (_, k) => (1 + 0.01 * (k % 2)) * other[k >> 1]!);
    expect(signSentence(signsIn(twice).find(({ kind }) => kind === 'interleaved')!)).toBe(
      'a: every second sample keeps to itself, apart from those between, all along: two devices under one name, which would be summed?',
    );
  });

  test('a slow meter, read five times for each value, that froze', () => {
    const slow = device.map((_, k) => device[k - (k % 5)]!);
    expect(short(signsIn(changed(slow, 1000, 1500, () => slow[999]!)))).toEqual(['frozen a 19.9 to 29.98']);
  });

  test('zeros, in one stretch and one by one', () => {
    expect(short(signsIn(changed(device, 1000, 1500, () => 0)))).toEqual(['zeros a 20 to 29.98']);
    expect(signSentence(signsIn(device.map((v, k) => (k % 400 === 200 ? 0 : v)))[0]!)).toBe(
      'a is exactly 0 W in 7 samples from 4 s to 52 s in 7 stretches, elsewhere never below 119.7 W: lost readings written as 0, or was it switched off?',
    );
  });

  test('a top that is cut off, also where the rest is coarse', () => {
    const cut = signsIn(device.map((v) => Math.min(v, 690)));
    expect(cut.map(({ kind }) => kind)).toEqual(['clipped']);
    expect(signSentence(cut[0]!)).toMatch(/a is cut off at 690 W: \d+ samples of exactly that \(\d+ %\)/);
    expect(signsIn(device.map((v) => Math.min(690, Math.round(v)))).map(({ kind }) => kind)).toEqual([
      'clipped',
    ]);
  });

  test('one sample far outside, two beside each other, several apart', () => {
    const spiked = (...places: number[]) =>
      signsIn(device.map((v, k) => (places.includes(k) ? 2400 + k / 1000 : v)));
    expect(short(spiked(1000))).toEqual(['spike a 20 to 20']);
    expect(short(spiked(1000, 1001))).toEqual(['spike a 20 to 20.02']);
    expect(short(spiked(0, 1000, 2000, 2999))).toEqual(['spike a 0 to 59.98']);
    expect(short(spiked(1000, 1001, 1002))).toEqual([]);
  });

  test('a number that means no reading, again and again', () => {
    expect(short(signsIn(device.map((v, k) => (k % 100 === 7 ? 65535 : v))))).toEqual([
      'spike a 0.14 to 58.14',
    ]);
  });

  test('such a number in a fifth of the samples, two of them at once, and more than a few disturbances', () => {
    const random = new Random(3);
    const among = (share: number, of: (k: number) => number) =>
      signsIn(device.map((v, k) => (random.uniform() < share ? of(k) : v))).map(({ kind }) => kind);
    expect(among(0.2, () => 65535)).toEqual(['spike']);
    expect(among(0.05, (k) => (k % 2 === 0 ? 65535 : 32767))).toEqual(['spike']);
    expect(among(0.1, () => 0)).toEqual(['zeros']);
    // As where two rates were joined and filled with 0.
    for (const share of [0.4, 0.6, 0.9]) expect(among(share, () => 0)).toContain('zeros');
    expect(among(0.005, (k) => 2000 + (k % 977))).toEqual(['spike']);
  });

  test('a count that runs on, to its end, and of 16 and of 32 bits', () => {
    let sum = 0;
    const energy = device.map((v) => (sum += v / 50));
    expect(short(signsIn(energy))).toEqual(['running count a 0 to 59.98']);
    expect(signSentence(signsIn(energy)[0]!)).toMatch(/a never falls in 3000 samples over 59.98 s/);
    const wraps = (size: number) =>
      signsIn(energy.map((v) => Math.round(v * 10) % size)).map(({ shows }) => shows);
    expect(wraps(2 ** 16).join()).toMatch(/never falls but 5 times, when it begins anew,/);
    const long = device.map((_, k) => (4e9 + Math.round(3e5 * energy[k]!)) % 2 ** 32);
    expect(signsIn(long).map(({ kind }) => kind)).toContain('running count');
  });

  test('a bottom that is cut off, high above 0', () => {
    const [sign] = clippedBelow(channel(device.map((v) => Math.max(v, 200))));
    expect(signSentence(sign!)).toMatch(
      /a is cut off at 200 W: .* and values above hardly repeat: a sensor that shows nothing lower, or/,
    );
    expect(clippedBelow(channel(device.map((v) => Math.max(v, 60))))).toEqual([]);
  });

  test('every tenth row twice, under stamps of its own', () => {
    const twice = Float64Array.from({ length: 3300 }, (_, k) => device[k - Math.floor(k / 11)]!);
    const [sign] = signsIn(twice);
    expect(signSentence(sign!)).toMatch(
      /a repeats the sample before it \d+ times, each time once \((?:9|10)\.?\d* %/,
    );
    const random = new Random(8);
    let at = 0;
    const some = device.map(() => device[random.uniform() < 0.1 ? at : ++at] ?? 400);
    expect(signsIn(some).map(({ kind }) => kind)).toEqual(['doubled']);
  });

  test('a top that is cut off, and a little noise on it', () => {
    const random = new Random(4);
    const noisy = (at: number, noise: number) =>
      signsIn(device.map((v) => (v > at ? at + noise * random.gaussian() : v))).map(({ kind }) => kind);
    for (const noise of [0.1, 0.3]) expect(noisy(690, noise)).toEqual(['clipped']);
  });

  test('noise that was averaged, smoothed, or resampled', () => {
    const random = new Random(6);
    const level = (k: number): number => (k % 300 < 200 ? 700 : 130);
    const raw = Float64Array.from({ length: 6000 }, (_, k) => level(k) + 4 * random.gaussian());
    const mean = raw.map((_, k) => {
      const part = raw.subarray(Math.max(0, k - 7), k + 1);
      return Math.round((1000 * part.reduce((sum, v) => sum + v, 0)) / part.length) / 1000;
    });
    const lowPassed = (of: Float64Array, share: number) => {
      const out = of.slice();
      for (let k = 1; k < out.length; k++) out[k] = out[k - 1]! + share * (of[k]! - out[k - 1]!);
      return out;
    };
    const slow = lowPassed(raw, 1 / 6);
    const slower = lowPassed(lowPassed(raw, 1 / 4), 1 / 4);
    const between = raw.map((_, k) => {
      const [from, part] = [6 * Math.floor(k / 6), (k % 6) / 6];
      return raw[from]! + part * ((raw[from + 6] ?? 0) - raw[from]!);
    });
    const kinds = (values: Float64Array) => signsIn(values).map(({ kind }) => kind);
    for (const values of [mean, slow, slower, between]) expect(kinds(values)).toEqual(['smoothed']);
    expect(kinds(raw)).toEqual([]);
    expect(signSentence(signsIn(mean)[0]!)).toMatch(
      /a has noise that lasts about (?:6|8) samples, \d+ ms: what is faster than about [23]\.?\d* Hz is not in it, though its rate promises 22 Hz/,
    );
  });

  test('a straight line filled in, to the digit or as it comes', () => {
    const line = (digits: number) =>
      changed(device, 1000, 1500, (_, k) => Number((400 + (k - 1000) / 7).toFixed(digits)));
    expect(short(signsIn(line(1)))).toEqual(['straight a 20 to 29.98']);
    expect(short(signsIn(line(15)))).toEqual(['straight a 20 to 29.98']);
    expect(short(signsIn(changed(device, 1000, 1015, (_, k) => k / 7)))).toEqual([]);
  });

  test('a dip of a quantity that never comes near 0', () => {
    const volts = device.map((v) => 50 + v / 1000);
    expect(short(signsIn(changed(volts, 700, 701, () => 3)))).toEqual(['spike a 14 to 14']);
  });

  test('a unit that changes: once, there and back, row by row', () => {
    const thousandth = (v: number): number => v / 1000;
    expect(short(signsIn(changed(device, 1500, 3000, thousandth)))).toEqual(['two scales a 30 to 59.98']);
    expect(signSentence(signsIn(changed(device, 1000, 2000, (v) => 1000 * v))[0]!)).toMatch(
      /changes .* 2 times, first at 20 s/,
    );
    expect(signsIn(device.map((v, k) => (k % 2 === 0 ? v : v / 1e6))).map(({ kind }) => kind)).toEqual([
      'two scales',
    ]);
  });

  test('a block that stands twice, right behind itself, later, three times', () => {
    const copy = (from: number, to: number, shift: number) =>
      changed(device, from, to, (_, k) => device[k - shift]!);
    expect(short(signsIn(copy(1000, 1500, 500)))).toEqual(['repeated a 20 to 29.98']);
    expect(short(signsIn(copy(2500, 2600, 2000)))).toEqual(['repeated a 50 to 51.98']);
    const thrice = changed(device, 1500, 2500, (_, k) => device[1000 + (k % 500)]!);
    expect(short(signsIn(thrice))).toEqual(['repeated a 30 to 49.98']);
    expect(signSentence(signsIn(copy(1000, 1500, 500))[0]!)).toBe(
      'a repeats 9.98 s exactly: 500 samples from 20 s on are those from 10 s on: a block that was copied or sent twice?',
    );
  });

  test('one recording played again and again is a remark', () => {
    const { signs, remarks } = signsOf([channel(device.map((_, k) => device[k % 600]!))]);
    expect(signs).toEqual([]);
    expect(remarks).toEqual([
      'a repeats itself exactly for 80 % of its length, 2400 samples in a row every 12 s: a synthetic cycle, or one recording played again.',
    ]);
  });
});

describe('between channels:', () => {
  test('of too many it is said that they are not compared', () => {
    const many = Array.from({ length: 33 }, (_, k) => channel(device, `${k}`));
    expect(signsOf(many)).toEqual({
      signs: [],
      remarks: ['Of more than 32 channels it is not told which repeat or sum others.'],
    });
  });

  test('two that only share one far value, are no copies', () => {
    const far = (values: Float64Array) => changed(values, 500, 501, () => 4294967295);
    expect(signsIn(far(device), far(other)).map(({ kind }) => kind)).toEqual(['spike', 'spike']);
  });

  test('a copy, also with a gain and rounding', () => {
    expect(short(signsIn(device, device))).toEqual(['twin b 0 to 59.98']);
    expect(
      short(
        signsIn(
          device,
          other,
          device.map((v) => Math.round(105 * v) / 100),
        ),
      ),
    ).toEqual(['twin c 0 to 59.98']);
  });

  test('one a thousand times smaller', () => {
    expect(
      short(
        signsIn(
          device,
          other.map((v) => v / 1000),
        ),
      ),
    ).toEqual(['another scale b 0 to 59.98']);
    expect(
      short(
        signsIn(
          device,
          other.map((v) => 1e6 * v),
        ),
      ),
    ).toEqual(['another scale a 0 to 59.98']);
    expect(
      short(
        signsIn(
          device,
          other.map((v) => v / 10),
        ),
      ),
    ).toEqual([]);
  });

  test('one that never changes', () => {
    expect(
      short(
        signsIn(
          device,
          other,
          device.map(() => 1000),
        ),
      ),
    ).toEqual(['never changes c 0 to 59.98']);
  });
});
