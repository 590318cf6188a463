/** A kept run proves itself: made again it is the same, and whatever was edited in it is found, sums right or not. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { BundleBytes } from '../../src/bundle/differences.ts';
import type { Manifest } from '../../src/bundle/format.ts';
import { readBundle, readBundleFiles, unlisted } from '../../src/bundle/read.ts';
import { fromHere } from '../../src/cli/disk/from-here.ts';
import { plainReading } from '../../src/loads/recorded/plain-reading.ts';
import { differing, editJson, keepRun, reseal, runAgain, shortest, textsOf } from '../fixtures/kept-run.ts';

let root: string;
let kept: string;
let edited: string;
/** The kept run made again: an edit that leaves request and inputs alone is held against it. */
let again: BundleBytes;

beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'again-'));
  kept = join(root, 'kept');
  edited = join(root, 'edited');
  keepRun(kept, shortest);
  again = runAgain(kept);
});

afterEach(() => rmSync(edited, { recursive: true, force: true }));
afterAll(() => rmSync(root, { recursive: true }));

/** `name where: kept → again`, of every file the first place that differs. */
function found(dir: string, rerun?: BundleBytes): string[] {
  return differing(dir, rerun).map(({ name, first }) => `${name} ${first[0]!.where}`);
}

function copy(): string {
  cpSync(kept, edited, { recursive: true });
  return edited;
}

describe('a kept run made again', () => {
  it('is the same bit for bit', () => {
    expect(differing(kept, again)).toEqual([]);
  });

  it.each([
    ['a controller of the user’s own', { scenario: 'scenarios/own-share.yaml' }],
    ['a gains file', { scenario: 'scenarios/fast-signal.yaml' }],
    ['a recording of its own', { scenario: 'scenarios/recorded-training.yaml' }],
    [
      'a waiver, its day, and finer steps',
      {
        waivers: [{ limit: 'trim', reason: 'being retuned', by: null, until: '2030-02-01' }],
        doubt: true,
      },
    ],
  ])('is the same with %s', (_what, request) => {
    // Settled and without warm-up, whatever the scenario says: that is the quickest.
    const changes = [
      ...shortest.changes,
      { path: 'warm_up', value: '0 s', option: '--set' },
      { path: 'start', value: 'settled', option: '--set' },
    ];
    keepRun(edited, { ...shortest, changes, ...request });
    expect(differing(edited)).toEqual([]);
  });

  it('is the same with a recording and a measurement, after their files are gone', () => {
    const load = join(root, 'load.csv');
    const bench = join(root, 'bench.csv');
    // Longer than what is kept as plain text.
    const rows = Array.from({ length: 8001 }, (_, k) => `${(k * 0.001).toFixed(3)},${100 + (k % 40)}`);
    writeFileSync(load, `t_s,power_kW\n${rows.join('\n')}\n`);
    const volts = Array.from({ length: 301 }, (_, k) => `${k / 1000},${50 + (k % 7) / 1e3}`);
    writeFileSync(bench, `t_s,v\n${volts.join('\n')}\n`);
    keepRun(edited, {
      ...shortest,
      load: { file: fromHere(load), reading: { ...plainReading, at: 'rack', copies: 1 }, assumed: [] },
      changes: [...shortest.changes, { path: 'load.from', value: '1 s', option: '--from' }],
      measured: {
        file: fromHere(bench),
        time: null,
        dates: null,
        decimal: null,
        map: [{ column: 'v', channel: 'A.S1.voltage_V' }],
        at_s: 0,
        near_s: null,
        sentinel: [],
        sensors: [{ of: 'v', sensor: 'divider, averaging 2 ms' }],
      },
    });
    rmSync(load);
    rmSync(bench);
    const inputs = readBundle(edited).provenance.inputs.map(({ file, gzip }) => [file, gzip]);
    expect(inputs).toContainEqual(['inputs/01-load.csv.gz', true]);
    expect(inputs.at(-1)).toEqual(['inputs/13-bench.csv', false]);
    expect(differing(edited)).toEqual([]);
  });

  it('names no folder of this machine', () => {
    const here = process.cwd();
    keepRun(edited, { ...shortest, scenario: fromHere(join(here, 'scenarios/idle.yaml')) });
    for (const text of textsOf(edited).values()) expect(text).not.toContain(here);
  });
});

describe('what reading would forgive', () => {
  it.each(['report.json', 'scenario.json'])('finds a key that stands twice in %s', (name) => {
    copy();
    const path = join(edited, name);
    writeFileSync(path, readFileSync(path, 'utf8').replace('{', '{ "verdict": "fail", "title": "x",'));
    // Where the key is none of the file's own, it differs as a value; else by its text alone.
    if (name === 'report.json') {
      writeFileSync(path, readFileSync(path, 'utf8').replace(' "title": "x",', ''));
    }
    reseal(edited);
    expect(found(edited, again).join()).toMatch(new RegExp(name));
  });

  it('names files that are no part of the bundle', () => {
    copy();
    writeFileSync(join(edited, 'page.html'), '<h1>PASS</h1>');
    expect(unlisted(edited, readBundleFiles(edited).manifest)).toEqual(['page.html']);
    expect(unlisted(kept, readBundleFiles(kept).manifest)).toEqual([]);
  });
});

describe('an edited bundle whose sums were made right again', () => {
  it.each([
    [
      'a verdict',
      'report.json',
      (r: { findings: object[] }) => ({
        ...r,
        verdict: 'fail',
        findings: r.findings.map((f, k) => (k === 1 ? { ...f, verdict: 'fail' } : f)),
      }),
    ],
    [
      'a limit',
      'report.json',
      (r: { findings: { limit: number }[] }) => ({
        ...r,
        findings: r.findings.map((f, k) => (k === 0 ? { ...f, limit: f.limit * 1.001 } : f)),
      }),
    ],
    [
      'a finding taken out',
      'report.json',
      (r: { findings: object[] }) => ({ ...r, findings: r.findings.slice(1) }),
    ],
    ['a field added', 'report.json', (r: object) => ({ ...r, approved: true })],
    ['the day it was judged for', 'report.json', (r: object) => ({ ...r, judged_on: '2020-01-01' })],
    ['a list made null', 'report.json', (r: object) => ({ ...r, findings: null })],
    ['a whole report made null', 'report.json', () => null],
    [
      'steps of the engine',
      'report.json',
      (r: { engine: { steps: number } }) => ({
        ...r,
        engine: { ...r.engine, steps: r.engine.steps + 1 },
      }),
    ],
    ['a value of the scenario', 'scenario.json', (s: { duration_s: number }) => ({ ...s, duration_s: 0.31 })],
    [
      'an energy',
      'readings.json',
      (r: { audit: { loss_J: number } }) => ({
        ...r,
        audit: { ...r.audit, loss_J: r.audit.loss_J * (1 + 2e-16) },
      }),
    ],
    ['an entry of the log', 'log.json', (log: object[]) => [...log, { tick: 0, time_s: 0 }]],
  ] as const)('is found: %s', (_what, name, edit) => {
    const dir = copy();
    editJson(dir, name, edit as (value: never) => unknown);
    reseal(dir);
    expect(differing(dir, again).map((file) => file.name)).toEqual([name]);
  });

  it('is found where one finding went from fail to pass, with both values', () => {
    keepRun(edited, {
      ...shortest,
      changes: [...shortest.changes, { path: 'limits.bus-floor.normal', value: '1.01', option: '--set' }],
    });
    editJson(edited, 'report.json', (report: { findings: { id: string }[] }) => ({
      ...report,
      findings: report.findings.map((f) => (f.id === 'bus-floor' ? { ...f, verdict: 'pass' } : f)),
    }));
    reseal(edited);
    const [file] = differing(edited);
    expect(file).toMatchObject({
      name: 'report.json',
      differences_count: 1,
      first: [{ where: 'findings.bus-floor.verdict', kept: '"pass"', again: '"fail"' }],
    });
  });

  it.each([
    ['wake.f32', 40_000, /^S?[\w.]+ (smallest|largest|mean), [\d.]+ s$/],
    ['wake.f32', 8, /^edges_s, edge 2$/],
    ['wake.f32', -4, /^close-up \d+ total\.smoothed_W, [\d.]+ s$/],
    ['streams.f64', 16, /^stream\/total\.ac_power_W, value 3$/],
    ['streams.f64', -8, /^stays\/carry\/aboveLast_s, value \d+$/],
  ] as const)('is found where one bit of %s changed, at byte %d', (name, at, where) => {
    const dir = copy();
    const path = join(dir, name);
    const bytes = readFileSync(path);
    bytes[at < 0 ? bytes.length + at : at]! ^= 1;
    writeFileSync(path, bytes);
    reseal(dir);
    const files = differing(dir, again);
    expect(files.map((file) => file.name)).toEqual([name]);
    expect(files[0]!.first[0]!.where).toMatch(where);
  });

  it.each([
    [
      'two channels swapped',
      (m: Manifest) => {
        const [a, b, ...rest] = m.wake.channels;
        return { ...m, wake: { ...m.wake, channels: [b!, a!, ...rest] } };
      },
    ],
    [
      'two columns of one length swapped',
      (m: Manifest) => {
        const [a, b, ...rest] = m.columns;
        return { ...m, columns: [b!, a!, ...rest] };
      },
    ],
    [
      'a unit',
      (m: Manifest) => {
        const [a, ...rest] = m.wake.channels;
        return { ...m, wake: { ...m.wake, channels: [{ ...a!, unit: 'ratio' as const }, ...rest] } };
      },
    ],
    ['another tool', (m: Manifest) => ({ ...m, tool_version: '9.9.9' })],
  ])('is found: %s in the manifest', (_what, edit) => {
    const dir = copy();
    reseal(dir, edit);
    expect(found(dir, again)).toEqual([expect.stringMatching(/^manifest\.json /)]);
  });

  it('is found where the text of an input changed, if only in a comment', () => {
    const dir = copy();
    const path = join(dir, 'inputs/11-limits-default.yaml');
    writeFileSync(path, `${readFileSync(path, 'utf8')}# mended\n`);
    reseal(dir);
    expect(found(dir)).toEqual([
      'report.json inputs.models/limits-default.yaml.sha256',
      'scenario.json inputs.models/limits-default.yaml.sha256',
    ]);
  });

  it('is found where a parameter in an input changed', () => {
    const dir = copy();
    const path = join(dir, 'inputs/05-tray-20kw.yaml');
    writeFileSync(
      path,
      readFileSync(path, 'utf8').replace(/capacitance: \{ value: \S+/, 'capacitance: { value: 150'),
    );
    reseal(dir);
    expect(differing(dir).map(({ name }) => name)).toContain('wake.f32');
  });

  it.each([
    [
      'a change taken back',
      (r: typeof shortest) => ({
        ...r,
        changes: [{ ...r.changes[0]!, value: '0.31 s' }],
      }),
    ],
    [
      'a waiver slipped in',
      (r: typeof shortest) => ({
        ...r,
        waivers: [{ limit: 'trim', reason: 'x', by: null, until: null }],
      }),
    ],
    ['finer steps asked for', (r: typeof shortest) => ({ ...r, doubt: true })],
  ])('is found: %s in the request', (_what, edit) => {
    const dir = copy();
    editJson(dir, 'request.json', edit as (value: never) => unknown);
    reseal(dir);
    expect(differing(dir).map(({ name }) => name)).toContain('report.json');
  });

  it('is refused where the request names an input that it does not hold', () => {
    const dir = copy();
    editJson(dir, 'request.json', (r: object) => ({ ...r, scenario: 'scenarios/pulse-train.yaml' }));
    reseal(dir);
    expect(() => differing(dir)).toThrow('scenarios/pulse-train.yaml');
  });

  it('is found where it holds an input that nothing reads', () => {
    const dir = copy();
    writeFileSync(join(dir, 'inputs/12-other.yaml'), 'other: true\n');
    reseal(dir, (m) => m);
    const name = 'inputs/12-other.yaml';
    editJson(dir, 'manifest.json', (m: Manifest) => ({
      ...m,
      inputs: [...m.inputs, { ...m.inputs[0]!, path: 'other.yaml', file: name }],
      files: [...m.files, { ...m.files[0]!, name, holds: 'the input other.yaml' }],
    }));
    reseal(dir);
    expect(found(dir)).toEqual(['manifest.json inputs.length']);
  });
});
