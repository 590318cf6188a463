/** The real process: what `gains` and `response` print, refuse and end with. */
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { onOneThread } from '../one-thread.ts';
import { standingCommand } from '../standing/standing.ts';

function buswake(...words: readonly string[]) {
  const run = standingCommand(onOneThread(words));
  return { code: run.status, out: run.stdout, err: run.stderr };
}

describe('buswake gains', () => {
  it('gives axes, cells and a recommended point as one JSON document, and keeps cells to go on from', () => {
    const dir = join(mkdtempSync(join(tmpdir(), 'gains-')), 'map');
    const words = [
      'gains',
      'single-step',
      '--x',
      'firmware.share.time_constant=50 ms to 200 ms in 3 log',
      '--y',
      'firmware.share.latency=5 ms to 15 ms in 3',
      '--no-confirm',
      '--out',
      dir,
    ];
    const { code, out } = buswake(...words, '--json');
    expect(code).toBe(0);
    const report = JSON.parse(out);
    expect(report.axes.map(({ values }: { values: string[] }) => values)).toEqual([
      ['50 ms', '100 ms', '200 ms'],
      ['5 ms', '10 ms', '15 ms'],
    ]);
    expect(report.cells).toHaveLength(9);
    expect(report.cells[4]).toMatchObject({ x: 1, y: 1, stable: true, lacks: null });
    const [x, y] = report.recommended.place;
    expect(report.cells[3 * x + y]).toMatchObject({ x, y, lacks: null });
    expect(report.recommended.edges).toHaveLength(4);
    expect(readFileSync(join(dir, 'trials.jsonl'), 'utf8').trim().split('\n')).toHaveLength(10);
    const again = buswake(...words, '--json', '--resume');
    expect(again.out).toBe(out);
    expect(buswake(...words).code).toBe(3);
  });

  it('refuses a parameter that the model lacks', () => {
    const { code, out, err } = buswake(
      'gains',
      'single-step',
      '--x',
      'firmware.share.latencyy=1 ms to 2 ms in 3',
    );
    expect([code, out]).toEqual([3, '']);
    expect(err).toMatchInlineSnapshot(`
      "--x  firmware.share.latencyy
        found     a parameter that the model does not have
        expected  a parameter of the model
        mend      perhaps firmware.share.latency, firmware.brake.latency or firmware.share.batteries
      1 problem. Nothing was run.
      "
    `);
  });

  it('refuses a grid of one point', () => {
    const { code, out, err } = buswake(
      'gains',
      'single-step',
      '--x',
      'firmware.share.time_constant=50 ms to 200 ms in 1',
    );
    expect([code, out]).toEqual([3, '']);
    expect(err).toMatchInlineSnapshot(`
      "--x  firmware.share.time_constant
        found     50 ms to 200 ms in 1, a grid of one point
        expected  two points or more
        mend      write 50 ms to 200 ms in 24
      1 problem. Nothing was run.
      "
    `);
  });

  it('refuses a point without rest', () => {
    const { code, out, err } = buswake('gains', 'single-step', '--at', '900 kW');
    expect([code, out]).toEqual([3, '']);
    expect(err).toMatchInlineSnapshot(`
      "load
        found     a start at 900.0 kW, where sled-1 would sit at 14.82 V
        expected  an operating point with every sled above 44 V
        mend      lower the load, or add shelves or bars
      1 problem. Nothing was run.
      "
    `);
  });
});

describe('a grid too coarse to tell', () => {
  it('says so in place of a requirement of at most 0 s', () => {
    const { code, out } = buswake(
      'gains',
      'single-step',
      '--x',
      'shelves.proportional_gain=200 A/V to 500 A/V in 3',
      '--y',
      'shelves.control_delay=0 us to 150 us in 3',
      '--no-confirm',
    );
    expect(code).toBe(0);
    expect(out).not.toContain('at most 0 s');
    expect(out).toContain('shelves.control_delay: no requirement: the grid is too coarse');
    expect(out).toContain('0 s is acceptable, not all at 75 µs is: the edge lies between');
  });
});

describe('buswake response', () => {
  it('gives curves and modes with owners as one JSON document', () => {
    const { code, out } = buswake('response', 'bench-step', '--points', '5', '--json');
    expect(code).toBe(0);
    const report = JSON.parse(out);
    expect(report.curves[0]).toMatchObject({ name: 'load to rectifier current' });
    for (const curve of report.curves) {
      // A sampled loop ends at half its rate.
      const length = curve.frequency_Hz.filter((f: number) => f <= (curve.half_sampling_Hz ?? f)).length;
      expect(length).toBe(curve.half_sampling_Hz === null ? 5 : curve.frequency_Hz.length);
      expect([curve.gain_dB.length, curve.phase_deg.length]).toEqual([length, length]);
    }
    const owners = report.modes.map((mode: { owners: { name: string }[] }) => mode.owners[0]!.name);
    expect(owners).toContainEqual(expect.stringMatching(/^T\d+ (capacitor voltage|charge integral)$/));
  });

  it('ends with 4 where a mode grows, and names who owns it', () => {
    const { code, out } = buswake('response', 'single-step', '--set', 'shelves.control_delay=110 us', '-q');
    expect(code).toBe(4);
    expect(out).toMatch(
      /UNSTABLE: \d+ growing modes?, the fastest by e in [\d.]+ .?s; \d+ % \S+ (output capacitor|output|sensing delay|current lag)/,
    );
  });

  it('refuses firmware periods that only meet after too long, and names them', () => {
    const { code, out, err } = buswake(
      'response',
      'single-step',
      '--set',
      'firmware.share.period=9.75 ms',
      '--set',
      'firmware.smoothing.period=0.36 ms',
      '-q',
    );
    expect([code, out]).toEqual([3, '']);
    expect(err).toMatchInlineSnapshot(`
      "firmware.smoothing.period, firmware.share.period
        found     smoothing every 360 µs, share every 9.75 ms: their common multiple is 117 ms, 325 of the shortest
        expected  periods that all fit into 2 s and into 250 of the shortest
        mend      make each a multiple of the next shorter, for example firmware.share.period 9.72 ms
      1 problem. Nothing was run.
      "
    `);
  });

  it('refuses a node that the cabinet lacks', () => {
    const { code, err } = buswake('response', 'single-step', '--node', 'sled-99');
    expect(code).toBe(3);
    expect(err).toMatchInlineSnapshot(`
      "node
        found     sled-99, which the cabinet does not have
        expected  one of A.S1, A.T1, A.S2, A.T2, A.K1, A.T3, A.S3, A.T4, A.B1, A.S4, A.T5, A.B2 …
        mend      perhaps sled-9, sled-1 or sled-10
      1 problem. Nothing was run.
      "
    `);
  });
});
