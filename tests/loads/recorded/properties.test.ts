import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BadInput } from '../../../src/base/problem.ts';
import { cleanedCsv } from '../../../src/loads/recorded/cleaned-csv.ts';
import { knownHow } from '../../../src/loads/recorded/known-how.ts';
import { plainReading, readRecorded } from '../../../src/loads/recorded/read-recorded.ts';
import { sumChannels } from '../../../src/loads/recorded/sum-channels.ts';
import { cut, type Series, trapezoid_J } from '../../../src/samples/series.ts';

const source = { file: 'load.csv', sha256: 'sum' };
const runs = { seed: 41, numRuns: 300 };

const series = fc
  .array(fc.tuple(fc.integer({ min: 1, max: 400 }), fc.integer({ min: 0, max: 1e6 })), {
    minLength: 2,
    maxLength: 40,
  })
  .map((steps): Series => {
    let t = 0;
    const time_s = Float64Array.from(steps, ([dt]) => {
      t += dt;
      return t / 1000;
    });
    return { time_s, power_W: Float64Array.from(steps, ([, p]) => p / 1000) };
  });

describe('recordings, whatever they hold:', () => {
  test('any text is read or refused as bad input, never a crash, and what is read has numbers throughout', () => {
    const cell = fc.constantFrom(
      '0',
      '1',
      '2.5',
      '-1',
      '',
      'x',
      '1,5',
      '"q"',
      '"',
      '1e3',
      '1795591743.5',
      '5 W',
      '#',
    );
    const header = fc.constantFrom('t_s', 'time', 'power_W', 'power', 'gpu', 'gpu0_W', 'note', '', '# t_s');
    const names = fc.oneof(
      fc.array(header, { maxLength: 4 }),
      fc.constantFrom(['t_s', 'power_W'], ['time', 'gpu', 'power_mW'], ['t_s', 'gpu0_W', 'gpu1_W']),
    );
    const text = fc
      .tuple(names, fc.array(fc.array(cell, { minLength: 1, maxLength: 3 }), { maxLength: 12 }))
      .map(([head, rows]) => [head, ...rows].map((row) => row.join(',')).join('\n'));
    let wasRead = 0;
    fc.assert(
      fc.property(fc.oneof(text, fc.string({ unit: 'binary' })), (raw) => {
        try {
          const { statement } = readRecorded(raw, source);
          expect(JSON.stringify(statement.channels)).not.toMatch(/null,"min_W|NaN/);
          expect(Number.isFinite(statement.total.energy_J)).toBe(true);
          expect(statement.total.min_W).toBeGreaterThanOrEqual(0);
          wasRead++;
        } catch (error) {
          expect(error).toBeInstanceOf(BadInput);
        }
      }),
      { seed: 41, numRuns: 4000 },
    );
    expect(wasRead).toBeGreaterThan(30);
  });

  test('the sum of channels has the energy of the channels over the span they share', () => {
    fc.assert(
      fc.property(fc.array(series, { minLength: 1, maxLength: 4 }), (channels) => {
        const total = sumChannels(channels);
        if (total === null) return;
        const from = total.time_s[0]!;
        const to = total.time_s[total.time_s.length - 1]!;
        const parts = channels.map((c) => cut(c, from, to));
        const energy = parts.reduce((sum, part) => sum + trapezoid_J(part.time_s, part.power_W), 0);
        expect(Math.abs(trapezoid_J(total.time_s, total.power_W) - energy)).toBeLessThanOrEqual(
          1e-9 * (1 + energy),
        );
      }),
      runs,
    );
  });

  test('a cleaned recording reads back the same', () => {
    fc.assert(
      fc.property(fc.array(series, { minLength: 1, maxLength: 3 }), (channels) => {
        const rows = channels.flatMap(({ time_s, power_W }, c) =>
          Array.from(time_s, (t, i) => `${t},name ${c},${power_W[i]}`),
        );
        let first: ReturnType<typeof readRecorded>;
        try {
          first = readRecorded(`t_s,channel,power_W\n${rows.join('\n')}\n`, source);
        } catch (error) {
          expect((error as Error).message).toContain('never run at the same time');
          return;
        }
        const again = readRecorded(cleanedCsv(first, knownHow(first.statement, plainReading, [])), source);
        expect(again.channels).toEqual(first.channels);
        expect(again.total).toEqual(first.total);
        expect(again.bridged).toEqual(first.bridged);
      }),
      runs,
    );
  });
});
