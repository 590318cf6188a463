/** The laws on fixed point stay within the bounds that are stated with them, and a coefficient that is off does not. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { embeddedFiles } from '../../src/embed/embedded.ts';
import { listenFixed } from '../../src/embed/fixed/listen-fixed.ts';
import { vectorsFile } from '../../src/embed/replay-text.ts';
import { type Changes, shippedWith } from '../engine/runs.ts';
import { compile, runProgram } from './compiled.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'fixed-laws-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** Writes the laws of a run on fixed point and compiles their replay. */
function embedded(name: string, changes: Changes): Readonly<Record<string, string>> {
  const scenario = shippedWith(name, changes);
  const vectors = new Map<string, string[]>();
  const fixed = listenFixed(scenario, null, {
    line: (id, text) => {
      const lines = vectors.get(id) ?? [];
      vectors.set(id, lines);
      lines.push(text);
    },
  });
  const origin = { tool_version: '0', scenario, command: 'none' };
  const files = embeddedFiles(fixed.listened, scenario, origin, fixed);
  for (const [id, lines] of vectors)
    writeFileSync(join(folder, vectorsFile({ id })), `${lines.join('\n')}\n`);
  for (const [file, text] of Object.entries(files)) writeFileSync(join(folder, file), text);
  compileReplay(files);
  return files;
}

const compileReplay = (files: Readonly<Record<string, string>>): void =>
  compile(
    folder,
    'replay',
    Object.keys(files).filter((file) => file.endsWith('.c')),
  );

/** A sampled voltage loop over a step of load: 1000 runs. */
const sampled: Changes = {
  duration: '50 ms',
  'shelves.loop_period': '50 us',
  'shelves.loop_latency': '25 us',
  'shelves.loop_voltage_bits': '12',
  'shelves.loop_voltage_range': '64 V',
  'shelves.loop_command_quantum': '0.5 A',
};

describe('laws on fixed point', () => {
  it.each<readonly [name: string, changes: Changes, ids: readonly string[]]>([
    // A lost signal and each tray balanced: paths beside the plain ones.
    [
      'single-step',
      {
        'load.at': '20 ms',
        duration: '60 ms',
        'firmware.smoothing.reference': 'source-high-pass',
        'firmware.smoothing.balance_time': '20 s',
        'firmware.smoothing.dead_band': '2 %',
        'events.add': 'signal-lost smoothing for 10 ms at 30 ms',
      },
      ['share', 'smoothing', 'charge'],
    ],
    ['highest-share', { duration: '50 ms' }, ['share', 'smoothing', 'charge']],
    // Modules that leave take their part of the memory along.
    ['modules-out', { ...sampled, 'events.1.at': '10 ms' }, ['share', 'voltage_loop']],
  ])('stay within their bounds over %s %o', (name, changes, ids) => {
    embedded(name, changes);
    const { out, code } = runProgram(folder, 'replay');
    for (const id of ids)
      expect(out).toMatch(new RegExp(`^${id}: \\d+ runs, \\d+ numbers, 0 outputs beyond their bound$`, 'm'));
    expect(code).toBe(0);
  });

  describe('of a step of load', () => {
    let files: Readonly<Record<string, string>>;
    beforeAll(() => {
      files = embedded('single-step', { ...sampled, 'load.at': '10 ms' });
    });

    it('hold no double, and coefficients with their format beside them', () => {
      const texts = Object.entries(files).filter(([file]) => file.endsWith('_law.c') || file.endsWith('.h'));
      expect(texts).toHaveLength(10);
      for (const [, text] of texts) expect(text).not.toMatch(/\bdouble [a-zA-Z*_]+\s*[=([;]/);
      // T_ts/tau_s = 0.5 ms/2.8 s, by hand: 0.5e-3/2.8 * 2^43 = 1570730896.8.
      expect(files['gains.h']).toContain('.follow_ratio = 1570730897 /* 0.000178571428571 as Q-12.43 */');
      expect(files['gains.h']).toContain('static const int64_t smoothing_period_ns = 500000;');
      expect(files['README.md']).toContain(
        '| smoothing | SmoothingMemory.smoothed_W | Q19.12 | 0.000244 | 524000 |',
      );
    });

    it('say which parameters their words are', () => {
      // 2.8 s of 0.5 ms / 2.8 s as 1570730897 counts of 2^-43, by hand.
      const tau = /firmware\.smoothing\.time_constant=([\d.]+) s/.exec(files['README.md']!);
      expect(Number(tau![1])).toBeCloseTo(0.5e-3 / (1570730897 * 2 ** -43), 12);
      expect(Number(tau![1])).not.toBe(2.8);
    });

    it('stay within their bounds', () => {
      const { out, code } = runProgram(folder, 'replay');
      expect(out.match(/ 0 outputs beyond their bound$/gm)).toHaveLength(4);
      expect(code).toBe(0);
    });

    // What a word of 12 bits would be off by: 2^20 counts of one of 32.
    it.each([
      ['smoothing', /\.follow_ratio = (\d+)/],
      ['charge', /\.charge_time_s = (\d+)/],
      ['share', /_step_V\[\d\] = \{\n {2}(\d+)/],
      ['voltage_loop', /_proportional_gain_A_per_V\[\d\] = \{\n {2}(\d+)/],
      ['voltage_loop', /_integral_ratio\[\d\] = \{\n {2}(\d+)/],
    ] as const)('of %s leave them where %s is one count of a coarse format off', (id, coefficient) => {
      const text = files['gains.h']!;
      const off = text.replace(coefficient, (whole, word: string) =>
        whole.replace(word, String(Number(word) - 2 ** 20)),
      );
      expect(off).not.toBe(text);
      writeFileSync(join(folder, 'gains.h'), off);
      compileReplay(files);
      const { out, code } = runProgram(folder, 'replay');
      expect(out).toMatch(
        new RegExp(`^${id}: \\d+ runs, \\d+ numbers, [1-9]\\d* outputs beyond their bound$`, 'm'),
      );
      expect(code).toBe(1);
    });
  });
});
