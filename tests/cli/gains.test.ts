/** The real process: what `gains` and `response` print, refuse and end with. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = new URL('../../', import.meta.url).pathname;

function buswake(...words: readonly string[]) {
  const run = spawnSync(process.execPath, [`${root}scripts/buswake.mjs`, ...words], {
    cwd: root,
    encoding: 'utf8',
  });
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
    expect(readFileSync(join(dir, 'cells.jsonl'), 'utf8').trim().split('\n')).toHaveLength(10);
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
      "firmware.share.latencyy
        found     a parameter that the model does not have
        expected  a parameter of the model
        mend      perhaps firmware.share.latency, firmware.share.leak_time or firmware.share.period
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
      "firmware.share.time_constant
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

describe('buswake response', () => {
  it('gives curves and modes with owners as one JSON document', () => {
    const { code, out } = buswake('response', 'single-step', '--points', '5', '--json');
    expect(code).toBe(0);
    const report = JSON.parse(out);
    expect(report.curves[0]).toMatchObject({ name: 'load to rectifier current' });
    for (const curve of report.curves) {
      expect([curve.frequency_Hz.length, curve.gain_dB.length, curve.phase_deg.length]).toEqual([5, 5, 5]);
    }
    expect(report.modes[0].owners[0].name).toMatch(/^T\d+ (capacitor voltage|charge integral)$/);
  });

  it('ends with 4 where a mode grows, and names who owns it', () => {
    const { code, out } = buswake('response', 'single-step', '--set', 'shelves.control_delay=110 us', '-q');
    expect(code).toBe(4);
    expect(out).toMatch(
      /UNSTABLE: \d+ growing modes?, \d+ % \S+ (output capacitor|output|sensing delay|current lag)/,
    );
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
