/** A cleaned recording, read again with nothing said, is worth what the original was. */
import { describe, expect, test } from 'vitest';
import { BadInput } from '../../../src/base/problem.ts';
import { anonymous } from '../../../src/loads/recorded/anonymous.ts';
import { cleanedCsv } from '../../../src/loads/recorded/cleaned-csv.ts';
import { knownHow } from '../../../src/loads/recorded/known-how.ts';
import { plainReading, readRecorded } from '../../../src/loads/recorded/read-recorded.ts';
import type { RecordedReading } from '../../../src/scenario/scenario.ts';
import { busy } from '../../samples/signs/known-signal.ts';

const device = busy(600);
const file = (of: (k: number) => string): string =>
  `time_s,gpu0_W\n${Array.from(device, (_, k) => `${k / 50},${of(k)}`).join('\n')}\n`;
const whole = file((k) => String(device[k]));
const read = (text: string, more: Partial<RecordedReading> = {}) =>
  readRecorded(text, { file: 'load.csv', sha256: 'sum' }, { ...plainReading, ...more });
const stated = (reading: Partial<RecordedReading>, assumed: readonly string[] = []) => {
  const asked = { ...plainReading, ...reading };
  return (load: ReturnType<typeof read>) => cleanedCsv(load, knownHow(load.statement, asked, assumed));
};
/** Read as stated, written clean and read with nothing stated. */
function again(text: string, reading: Partial<RecordedReading>) {
  const first = read(text, reading);
  return { first, second: read(stated(reading)(first)) };
}

describe('written clean and read again', () => {
  test('it keeps the time over which its sensor averaged', () => {
    const { first, second } = again(whole, { averaging_s: 1 });
    expect(second.statement.bandwidth_Hz).toBe(0.44);
    expect(second.statement.bandwidth_by).toBe('averaging');
    expect(first.statement.bandwidth_Hz).toBe(0.44);
  });

  test('a current times its voltage is the power that it was', () => {
    const rows = Array.from(
      device,
      (v, k) => `${k / 50},${(v / 50).toFixed(3)},${k % 3 === 0 ? 50.1 : 49.9}`,
    );
    const text = `time_s,I_A,U_V\n${rows.join('\n')}\n`;
    const { first, second } = again(text, { current: ['I_A'], voltage: 'U_V' });
    expect(second.statement.total).toEqual(first.statement.total);
  });

  test('stamps and powers are written in the digits that the file means', () => {
    const rows = Array.from(
      device,
      (v, k) => `${((k * 51 + 999) / 1000).toFixed(3)},${(v / 1000).toFixed(3)}`,
    );
    const { first, second } = again(`time_s,gpu0_kW\n${rows.join('\n')}\n`, {});
    expect(second.total).toEqual(first.total);
    const lines = stated({})(first)
      .split('\n')
      .filter((line) => /^\d/.test(line));
    expect(lines).toHaveLength(device.length);
    expect(lines.filter((line) => !/^\d+(\.\d{1,3})?,gpu0_kW,\d+$/.test(line))).toEqual([]);
  });

  test('what was left out stays a gap, one sample and many', () => {
    const holes = file((k) => (k === 100 || (k > 200 && k < 290) || k % 97 === 5 ? '' : String(device[k])));
    const { first, second } = again(holes, {});
    expect(first.gaps.length).toBe(9);
    expect(second.gaps).toEqual(first.gaps);
    expect(second.bridged).toEqual(first.bridged);
    expect(second.statement.coverage_ratio).toBe(first.statement.coverage_ratio);
    expect(second.total).toEqual(first.total);
  });

  test('a value that stood for no reading stays a gap', () => {
    const { first, second } = again(
      file((k) => (k % 50 === 7 ? '-999' : String(device[k]))),
      { sentinel: [-999] },
    );
    expect(first.gaps.length).toBe(12);
    expect(second.gaps).toEqual(first.gaps);
  });

  test('warnings stay, once each, also those of what was overruled', () => {
    const { first, second } = again(whole, { unit: 'mW', overrule: true });
    expect(first.statement.warnings).toHaveLength(2);
    expect(second.statement.warnings).toEqual(first.statement.warnings);
    expect(read(stated({})(second)).statement.warnings).toEqual(first.statement.warnings);
  });

  test('of very many warnings their number stays', () => {
    const load = read(whole);
    const how = {
      ...knownHow(load.statement, plainReading, []),
      warned: Array.from({ length: 99 }, (_, k) => `${k}.`),
    };
    expect(read(cleanedCsv(load, how)).statement.warnings.at(-1)).toMatch(/There are 69 more warnings/);
  });

  test('instants, fresh values and other smoothing are told by the file', () => {
    const { second } = again(
      file((k) => String(device[k - (k % 5)])),
      { samples: 'instants', fresh: true, smoothed: true },
    );
    expect(second.statement.bandwidth_Hz).toBeCloseTo(22, 9);
    expect(second.statement.warnings.join('\n')).toMatch(
      /instants.*\n.*repeated values.*\n.*other smoothing/,
    );
  });

  test('side and place are those stated, or said by the columns, and not those assumed', () => {
    const clean = (assumed: readonly string[]) =>
      read(stated({ side: 'ac', at: 'rack' }, assumed)(read(whole)));
    expect(clean([]).statement.place.side?.is).toBe('ac');
    expect(clean([]).statement.place.at?.is).toBe('rack');
    expect(clean(['reading.side', 'reading.at']).statement.place).toEqual({
      side: { is: 'dc', name: '# side dc' },
      at: { is: 'device', name: '# at device' },
    });
    const nameless = whole.replace('gpu0_W', 'power_W');
    const open = read(stated({}, ['reading.side', 'reading.at'])(read(nameless)));
    expect(open.statement.place).toEqual({ side: null, at: null });
  });

  test('without names it keeps the gaps of each channel, and that there were warnings', () => {
    const two = `time_s,alpha_W,beta_W\n${Array.from(device, (v, k) => `${k / 50},${v},${k % 40 === 3 ? '' : 2 * v + (k % 7)}`).join('\n')}\n`;
    const load = read(two, { power: ['alpha_W', 'beta_W'] });
    for (const seed of [1, 2, 3]) {
      const shown = anonymous(
        { ...load, statement: { ...load.statement, warnings: ['alpha_W was odd.'] } },
        seed,
        null,
      ).load;
      const text = stated({})(shown);
      const back = read(text);
      expect(text).not.toMatch(/alpha|beta/);
      expect(back.bridged).toEqual(shown.bridged);
      expect(back.statement.warnings[0]).toMatch(/^Of the recording .* 1 warning was given/);
    }
  });
});

describe('what the file says of itself, stated otherwise,', () => {
  test.each<readonly [string, Partial<RecordedReading>, RegExp]>([
    [
      'averaging 1 s',
      { averaging_s: 0.02 },
      /means over 20 ms, as stated, in a file that says averaging 1 s/,
    ],
    ['samples instants', { samples: 'means' }, /samples that are means, as stated/],
  ])('is refused: %s', (line, reading, words) => {
    const text = `# ${line}\n${whole}`;
    const problem = (() => {
      try {
        read(text, reading);
        return 'read';
      } catch (error) {
        if (!(error instanceof BadInput)) throw error;
        return error.problems[0]!.found;
      }
    })();
    expect(problem).toMatch(words);
    expect(read(text, { ...reading, overrule: true }).statement.warnings).toHaveLength(1);
  });
});
