import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { everyStep } from '../../scripts/identification/every-step.ts';
import { readingOf } from '../../scripts/identification/instrument.ts';
import { Random } from '../../src/loads/random.ts';
import { readShipped } from '../scenario/shipped.ts';
import { onOneThread } from './one-thread.ts';
import { standingCommand } from './standing/standing.ts';

let folder = '';
let bench = '';

const buswake = (args: readonly string[]) => standingCommand(onOneThread(args));

const short = ['--set', 'duration=0.4 s', '--set', 'load.at=0.05 s'];

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'measured-'));
  bench = join(folder, 'bench.csv');
  // A bench of our own invention: the model at another droop, read every 2 ms from 10 ms on, in millivolts.
  const { scenario } = readShipped('scenarios/single-step.yaml', [], {
    changes: [
      { path: 'duration', value: '0.4 s' },
      { path: 'load.at', value: '0.05 s' },
      { path: 'shelves.droop', value: '0.75 mΩ' },
    ],
  });
  const channel = 'A.S1.voltage_V';
  const reading = readingOf(everyStep(scenario, [channel]), channel, undefined);
  const random = new Random(4);
  const rows = Array.from({ length: 180 }, (_, k) => {
    const noise_V = 0.002 * (random.uniform() - 0.5);
    return `${2 * k},${(1000 * (reading(0.01 + 0.002 * k) + noise_V)).toFixed(2)}`;
  });
  writeFileSync(bench, `time_ms,probe (mV)\n${rows.join('\n')}\n`);
});

describe('buswake run --measured', () => {
  test('prints the errors, and keeps them with the traces in the bundle', () => {
    const out = join(folder, 'run');
    const { stdout, stderr, status } = buswake([
      'run',
      'single-step',
      ...short,
      '--measured',
      bench,
      '--map',
      'probe (mV)=A.S1.voltage_V',
      '--out',
      out,
    ]);
    // 0.4 s judge nothing of a step at 0.05 s; the measurement is laid over them all the same.
    expect([status, stderr]).toEqual([6, '']);
    // The bench is of another droop: it is placed near its 10 ms, and that the model differs is said.
    expect(stdout).toMatch(
      /^measured .*bench\.csv .* first stamp at (8|9|10|11)\.\d+ ms of the run, found by A\.S1\.voltage_V/m,
    );
    expect(stdout).toContain('the model differs from what was measured');
    const { measured } = JSON.parse(readFileSync(join(out, 'report.json'), 'utf8'));
    expect(measured.channels[0]).toMatchObject({
      channel: 'A.S1.voltage_V',
      column: 'probe (mV)',
      unit: 'V',
    });
    expect(measured.channels[0].trace.time_s.length).toBe(measured.channels[0].samples);
    expect(Math.abs(measured.channels[0].bias)).toBeGreaterThan(0.005);
  });

  test('ends with 3 and names the option where a column stands for nothing', () => {
    const { stderr, status } = buswake(['run', 'single-step', '--measured', bench]);
    expect(status).toBe(3);
    expect(stderr).toContain('give --map "probe (mV)"=CHANNEL');
  });
});

describe('buswake fit', () => {
  test('prints one JSON document with value and interval by path, and the error before and after', () => {
    const { stdout, stderr, status } = buswake([
      'fit',
      'single-step',
      ...short,
      '--measured',
      bench,
      '--map',
      'probe (mV)=A.S1.voltage_V',
      '--measured-at',
      '10ms',
      '--adjust',
      'shelves.droop = 0.5 mΩ to 1 mΩ',
      // What takes long says so on stderr, on a slow machine this as well.
      '-q',
      '--json',
    ]);
    expect([status, stderr]).toEqual([0, '']);
    const report = JSON.parse(stdout);
    const { value, interval } = report.result['shelves.droop'];
    expect(value).toBeCloseTo(0.75e-3, 5);
    expect([interval[0] < 0.75e-3, 0.75e-3 < interval[1]]).toEqual([true, true]);
    expect(report.error_after).toBeLessThan(0.5 * report.error_before);
    expect(report.cannot_tell_apart).toEqual([]);
  });

  test('ends with 3 where nothing is to be adjusted', () => {
    const { stderr, status } = buswake([
      'fit',
      'single-step',
      '--measured',
      bench,
      '--map',
      'probe (mV)=A.S1.voltage_V',
    ]);
    expect([status, stderr.includes('give --adjust PATH')]).toEqual([3, true]);
  });
});
