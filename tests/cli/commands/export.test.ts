/** Waveforms out of a run, and tables out of what is kept: bit for bit, whole or not at all. */
import { spawn } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Papa from 'papaparse';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Report } from '../../../src/analysis/judge/report.ts';
import { readBundle } from '../../../src/bundle/read.ts';
import type { FitReport } from '../../../src/studies/fit/fit-report.ts';
import { parquetColumns } from '../../export/read-parquet.ts';
import { editJson, reseal } from '../../fixtures/kept-run.ts';
import { shortTermByHarmonics } from '../../reference/flicker-by-harmonics.ts';
import { onOneThread } from '../one-thread.ts';
import { standingCommand } from '../standing/standing.ts';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const load = join(root, 'scenarios/loads/training-two-accelerators-50hz.csv');
let folder: string;
let kept: string;

const buswake = (...words: readonly string[]) => standingCommand(onOneThread(words), folder);

/** The command, which must go well. */
function done(...words: readonly string[]): string {
  const { status, stdout, stderr } = buswake(...words);
  expect(`${status} ${stderr}`).toMatch(/^0 /);
  return stdout;
}

/** Columns of a CSV file by name, read by a parser of its own. */
function csv(path: string): ReadonlyMap<string, readonly string[]> {
  const [head, ...rows] = Papa.parse<string[]>(readFileSync(join(folder, path), 'utf8'), {
    skipEmptyLines: true,
  }).data;
  return new Map(head!.map((name, c) => [name, rows.map((row) => row[c]!)]));
}

function numbersIn(path: string, name: string): number[] {
  return csv(path).get(name)!.map(Number);
}

/** A cell of single precision, which has no more digits than that needs. */
const single = (cell: string): number => Math.fround(Number(cell));

function bytesOf(values: readonly number[]): Buffer {
  return Buffer.from(Float64Array.from(values).buffer);
}

function sameBytes(one: string, other: string): boolean {
  return readFileSync(join(folder, one)).equals(readFileSync(join(folder, other)));
}

const short = ['run', 'idle', '--set', 'duration=0.1 s', '-q'];

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'export-'));
  kept = join(folder, 'kept');
  done(...short, '--out', 'kept', '--csv', 'run.csv', '--parquet', 'run.parquet');
});

afterAll(() => rmSync(folder, { recursive: true }));

describe('run --csv --parquet', () => {
  it('give the same numbers, each read by another reader, bit for bit', async () => {
    const parquet = await parquetColumns(join(folder, 'run.parquet'));
    const text = csv('run.csv');
    expect([...parquet.keys()]).toEqual([...text.keys()]);
    expect([...text.keys()].slice(0, 2)).toEqual(['time_s', 'A.S1.voltage_V']);
    for (const id of ['total.ac_power_W', 'F1.ac_power_W', 'F2.ac_power_W', 'S8.current_A'])
      expect([...text.keys()]).toContain(id);
    for (const [name, cells] of text)
      expect([name, bytesOf(cells.map(Number)).equals(bytesOf(parquet.get(name) as number[]))]).toEqual([
        name,
        true,
      ]);
  });

  it('give chosen channels at a rate, and say what a row is', () => {
    const { stderr, status } = buswake(
      ...['run', 'idle', '--set', 'duration=0.1 s', '--csv', 'means.csv'],
      ...['--channels', 'F*.ac_power_W, S1.current_A', '--rate', '100 Hz', '--filter', 'mean'],
    );
    expect(status).toBe(0);
    expect(stderr).toContain(
      'means.csv: 10 rows of time_s and 3 channels, means over 10 ms; time_s is the middle of each interval\n',
    );
    expect([...csv('means.csv').keys()]).toEqual([
      'time_s',
      'S1.current_A',
      'F1.ac_power_W',
      'F2.ac_power_W',
    ]);
  });

  it.each([
    ['an unknown channel', ['--channels', 'S1.curent_A'], /did you mean S1\.current_A/],
    ['a rate that ticks cannot make', ['--rate', '1.7 kHz'], /found {5}1\.7 kHz/],
    ['a rate above the ticks', ['--rate', '10 MHz'], /found {5}10 MHz/],
    ['a rate without a unit', ['--rate', '100'], /a number without a unit/],
    [
      'both readings of a recording',
      ['--load', load, '--at', 'sled', '--copies', '16', '--edges', 'both'],
      /--edges smooth/,
    ],
  ])('refuse %s, and leave nothing', (_what, words, why) => {
    const { stderr, status } = buswake(...short, '--csv', 'refused/x.csv', ...words);
    expect(stderr).toMatch(why);
    expect(status).toBe(3);
    expect(existsSync(join(folder, 'refused'))).toBe(false);
  });

  it('refuse a file that stands there, and a place where none can be', () => {
    writeFileSync(join(folder, 'mine.csv'), 'mine');
    expect(buswake(...short, '--csv', 'mine.csv').stderr).toMatch(/a file that exists already/);
    expect(readFileSync(join(folder, 'mine.csv'), 'utf8')).toBe('mine');
    const { status, stderr } = buswake(...short, '--csv', 'mine.csv/x.csv');
    expect(`${status} ${stderr}`).toMatch(
      /^3 mine\.csv\/x\.csv\n {2}found {5}a path that leads through a file/,
    );
  });

  it('leave nothing half-written when the run is stopped', async () => {
    const target = join(folder, 'stopped');
    mkdirSync(target);
    const words = ['run', 'pulse-train', '--set', 'duration=600 s', '-q', '--csv', join(target, 'x.csv')];
    const run = spawn(process.execPath, [join(root, 'scripts/buswake.mjs'), ...words], { cwd: folder });
    const ended = new Promise<number | null>((resolve) => run.on('exit', resolve));
    // It is being written when its part is there.
    while (readdirSync(target).length === 0) await new Promise((resolve) => setTimeout(resolve, 50));
    expect(readdirSync(target)[0]).toMatch(/^x\.csv\.\d+\.buswake-part$/);
    run.kill('SIGINT');
    expect(await ended).toBe(130);
    expect(readdirSync(target)).toEqual([]);
  });
});

describe('export', () => {
  it('writes what a bundle keeps: envelopes, close-ups, means, streams, feeders too', () => {
    const { recording, means, streams } = readBundle(kept).result;
    expect(done('export', 'kept', '--out', 'tables').split('\n')).toHaveLength(5);
    const envelopes = csv('tables/envelopes.csv');
    expect(envelopes.get('from_s')!.map(Number)).toEqual([...recording.edges_s.slice(0, -1)]);
    expect(envelopes.get('to_s')!.map(Number)).toEqual([...recording.edges_s.slice(1)]);
    recording.channels.forEach(({ id }, c) => {
      expect(envelopes.get(`min.${id}`)!.map(single)).toEqual([...recording.min[c]!]);
      expect(envelopes.get(`max.${id}`)!.map(single)).toEqual([...recording.max[c]!]);
      expect(envelopes.get(`mean.${id}`)!.map(single)).toEqual([...recording.mean[c]!]);
    });
    const closeUps = csv('tables/close-ups.csv');
    const moments = recording.closeUps.flatMap(({ time_s }) => [...time_s]);
    expect(closeUps.get('time_s')!.map(Number)).toEqual(moments);
    recording.channels.forEach(({ id }, c) => {
      const values = recording.closeUps.flatMap((closeUp) => [...closeUp.values[c]!]);
      expect(closeUps.get(id)!.map(single)).toEqual(values);
    });
    const table = csv('tables/means.csv');
    expect([...table.keys()]).toEqual(['time_s', ...means.columns.keys()]);
    expect(table.has('F2.ac_power_W')).toBe(true);
    for (const [id, values] of means.columns) expect(table.get(id)!.map(Number)).toEqual([...values]);
    const [stream] = streams;
    expect(numbersIn('tables/streams.csv', stream!.channel)).toEqual([...stream!.samples]);
    expect(numbersIn('tables/streams.csv', 'time_s').slice(0, 2)).toEqual([
      stream!.from_s + 0.5 / stream!.rate_Hz,
      stream!.from_s + 1.5 / stream!.rate_Hz,
    ]);
  });

  it('with --every-step writes the bytes that the run itself wrote', () => {
    done('export', 'kept', '--out', 'steps', '--every-step');
    expect(sameBytes('steps/steps.csv', 'run.csv')).toBe(true);
    done('export', 'kept', '--out', 'steps', '--every-step', '--form', 'parquet', '--force');
    expect(sameBytes('steps/steps.parquet', 'run.parquet')).toBe(true);
    expect(readdirSync(join(folder, 'steps'))).toEqual(['steps.parquet']);
  });

  it('with --from and --to writes that stretch alone, of what is kept and of the steps', () => {
    const ends = ['--from', '0.02 s', '--to', '80ms'];
    done('export', 'kept', '--out', 'stretch', ...ends);
    const all = numbersIn('tables/streams.csv', 'time_s');
    expect(numbersIn('stretch/streams.csv', 'time_s')).toEqual(all.filter((t) => t >= 0.02 && t <= 0.08));
    done('export', 'kept', '--out', 'stretch-steps', '--every-step', ...ends);
    const steps = numbersIn('run.csv', 'time_s');
    const rows = steps.flatMap((t, k) => (t >= 0.02 && t <= 0.08 ? [k] : []));
    expect(rows.length).toBeGreaterThan(100);
    const bus = numbersIn('run.csv', 'A.S1.voltage_V');
    expect(numbersIn('stretch-steps/steps.csv', 'A.S1.voltage_V')).toEqual(rows.map((k) => bus[k]!));
    expect(buswake('export', 'kept', '--out', 'none', '--from', '2 s', '--to', '1 s').stderr).toMatch(
      /not after/,
    );
  });

  it('says with exit code 4 that the run made again is not the kept one', () => {
    cpSync(kept, join(folder, 'edited'), { recursive: true });
    editJson(join(folder, 'edited'), 'report.json', (report: Report) => ({ ...report, verdict: 'fail' }));
    reseal(join(folder, 'edited'));
    const { status, stderr } = buswake('export', 'edited', '--out', 'again', '--every-step', '-q');
    expect(`${status} ${stderr}`).toMatch(/^4 .*is not the kept one: report\.json differ/);
  });

  it.each([
    ['a folder with other files', ['kept', '--out', '.', '--force'], /a folder with other files in it/],
    [
      'a channel that is not kept',
      ['kept', '--out', 'none', '--channels', 'F9.*'],
      /F9\.\*, no channel of that name/,
    ],
    ['what is neither', ['nowhere', '--out', 'none'], /no such file/],
    [
      'a stretch from before the run',
      ['kept', '--out', 'none', '--from=-1 s'],
      /--from.*-1 s, before the run begins/s,
    ],
    [
      'a stretch after the run',
      ['kept', '--out', 'none', '--from', '5 s'],
      /--from.*5 s, of a run from 0 s to 100 ms/s,
    ],
    [
      'steps of a stretch between two of them',
      ['kept', '--out', 'none', '--every-step', '--from', '10.00001 ms', '--to', '10.00002 ms'],
      /in which no row lies/,
    ],
    [
      'steps at a rate',
      ['kept', '--out', 'none', '--every-step', '--rate', '1 kHz'],
      /together with --every-step/,
    ],
  ])('refuses %s, and leaves nothing', (_what, words, why) => {
    const { status, stderr } = buswake('export', ...words);
    expect(`${status} ${stderr}`).toMatch(why);
    expect(status).toBe(3);
    expect(readdirSync(folder).filter((name) => /none|part/.test(name))).toEqual([]);
  });
});

describe('export of a study', () => {
  it('gives curves as numbers in SI', () => {
    done('response', 'bench-step', '--points', '10', '--out', 'response', '-q');
    done('export', 'response', '--out', 'curves');
    const report = JSON.parse(readFileSync(join(folder, 'response/study.json'), 'utf8')) as {
      curves: { frequency_Hz: number[]; gain_dB: number[]; phase_deg: number[] }[];
    };
    const all = <T>(of: (curve: (typeof report.curves)[0]) => T[]): T[] => report.curves.flatMap(of);
    expect(numbersIn('curves/curves.csv', 'frequency_Hz')).toEqual(all((c) => c.frequency_Hz));
    // An empty cell where there is no gain, and a last digit that powers of ten may differ in.
    const gains = all((c) => c.gain_dB.map((g: number | null) => (g === null ? 0 : 10 ** (g / 20))));
    for (const [k, gain] of numbersIn('curves/curves.csv', 'gain').entries())
      expect(Math.abs(gain - gains[k]!)).toBeLessThanOrEqual(1e-14 * gains[k]!);
    expect(numbersIn('curves/curves.csv', 'phase_rad')).toEqual(
      all((c) => c.phase_deg.map((p) => (p * Math.PI) / 180)),
    );
  });

  it('gives samples and trials as numbers in SI, in CSV and in Parquet', async () => {
    // Whether it passes is no matter here.
    buswake(
      ...['spread', 'single-step', '--set', 'duration=0.1 s', '--samples', '3', '--out', 'spread', '-q'],
      ...['--tolerance', 'shelves.droop=uniform by 5 %'],
    );
    done('export', 'spread', '--out', 'samples');
    done('export', 'spread', '--out', 'samples-parquet', '--form', 'parquet');
    const droops = numbersIn('samples/samples.csv', 'shelves.S1.droop_ohm');
    expect(droops).toHaveLength(3);
    for (const droop of droops) expect(Math.abs(droop / 0.000694 - 1)).toBeLessThan(0.06);
    const trials = csv('samples/trials.csv');
    expect(trials.get('status')).toEqual(['ok', 'ok', 'ok']);
    const parquet = await parquetColumns(join(folder, 'samples-parquet/trials.parquet'));
    expect([...parquet.keys()]).toEqual([...trials.keys()]);
    expect(parquet.get('bus_min_V')).toEqual(trials.get('bus_min_V')!.map(Number));
    expect(numbersIn('samples/trials.csv', 'bus_min_V').every((v) => v > 40 && v < 50)).toBe(true);
    expect([...trials.keys()]).toContain('ac-ramp-1s.normal.value_W_per_s');
  });
});

describe('export of a fit', () => {
  it('gives values, profiles and curves as numbers in SI', () => {
    const bench = join(root, 'scenarios/measured/bench-step.csv');
    done('fit', 'bench-step', '--measured', bench, '--adjust', 'banks.capacitance', '--out', 'fit', '-q');
    done('export', 'fit', '--out', 'fitted');
    const report = JSON.parse(readFileSync(join(folder, 'fit/study.json'), 'utf8')) as FitReport;
    const { value, interval, profile } = report.result['banks.capacitance']!;
    expect(numbersIn('fitted/values.csv', 'value')).toEqual([value]);
    expect(numbersIn('fitted/values.csv', 'interval_high')).toEqual([interval![1]]);
    expect(csv('fitted/values.csv').get('unit')).toEqual(['F']);
    expect(numbersIn('fitted/profiles.csv', 'root_of_growth')).toEqual(profile.map(({ t }) => t));
    const laid = report.channels.map((channel) => channel.laid);
    expect(numbersIn('fitted/curves.csv', 'measured')).toEqual(laid.flatMap(({ measured }) => measured));
    expect(numbersIn('fitted/curves.csv', 'after')).toEqual(laid.flatMap(({ after }) => after));
  });
});

describe('an independent flicker meter', () => {
  it('finds from the export of each feeder what the report says, within 0.5 %', () => {
    // Ten whole periods of 1.6 s. On a line of 1 MVA the load flickers well above what a meter shows of the carrier
    // alone (0.0093 and 0.0096: no two demodulators leave the same of 100 Hz), which is half of all on one of 10 MVA.
    const report = JSON.parse(
      done(
        ...['run', 'pulse-train', '--set', 'duration=16 s', '--set', 'feeders.short_circuit_power=1 MVA'],
        ...['--json', '--csv', 'feeders.csv', '--channels', 'F*.ac_power_W', '--rate', '1 kHz'],
      ),
    ) as Report;
    const { feeders } = report.grid!;
    expect(feeders.map(({ feeder }) => feeder)).toEqual(['F1', 'F2']);
    // ΔV/V per watt at X/R 5 and power factor 0.99 (IEC TR 61000-3-7, as in tests/reference/voltage-change.test.ts).
    const fall_per_W = (1 + 5 * Math.tan(Math.acos(0.99))) / Math.hypot(1, 5) / 1e6;
    for (const { feeder, pst } of feeders) {
      const power_W = Float64Array.from(numbersIn('feeders.csv', `${feeder}.ac_power_W`));
      expect(power_W).toHaveLength(16_000);
      const found = shortTermByHarmonics(power_W, 1000, fall_per_W);
      expect(pst).toBeGreaterThan(0.1);
      expect(Math.abs(found / pst! - 1)).toBeLessThan(0.005);
    }
  });
});
