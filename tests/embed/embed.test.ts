/** The laws in C give, bit for bit, what the engine's laws commanded in a run, and that is what devices were told. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BadInput } from '../../src/base/problem.ts';
import { embeddedFiles } from '../../src/embed/embedded.ts';
import { type Listened, listen } from '../../src/embed/listen.ts';
import { laws } from '../../src/embed/made/laws.ts';
import { vectorsFile } from '../../src/embed/replay-text.ts';
import { simulate } from '../../src/engine/simulate.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { type Changes, shippedWith } from '../engine/runs.ts';
import { compile, runProgram } from './compiled.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'laws-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** Writes the laws of a run and compiles their replay. */
function embedded(name: string, changes: Changes): Listened {
  const scenario = shippedWith(name, changes);
  const vectors = new Map<string, string[]>();
  const listened = listen(scenario, null, {
    line: (id, text) => {
      const lines = vectors.get(id) ?? [];
      vectors.set(id, lines);
      lines.push(text);
    },
  });
  const files = embeddedFiles(listened, scenario, { tool_version: '0', scenario, command: 'none' });
  for (const [id, lines] of vectors)
    writeFileSync(join(folder, vectorsFile({ id })), `${lines.join('\n')}\n`);
  for (const [file, text] of Object.entries(files)) writeFileSync(join(folder, file), text);
  compile(
    folder,
    'replay',
    Object.keys(files).filter((file) => file.endsWith('.c')),
  );
  return listened;
}

describe('laws in C', () => {
  const short = '0.3 s';
  it.each<readonly [name: string, changes: Changes, rows: Readonly<Record<string, number>>]>([
    // Tasks run at n T + latency mod T from 0 on: 0.3 s hold 30 runs of 10 ms and 600 of 0.5 ms.
    ['single-step', { duration: short }, { share: 30, smoothing: 600, charge: 600 }],
    [
      'tray-assist',
      { duration: '0.8 s', 'firmware.share.batteries': 'share' },
      { share: 80, battery_share: 80, smoothing: 1015, charge: 1015 },
    ],
    ['highest-share', { duration: short }, { share: 30, smoothing: 600, charge: 600 }],
    [
      'single-step',
      {
        duration: short,
        'firmware.smoothing.reference': 'source-high-pass',
        'firmware.smoothing.balance_time': '20 s',
        'events.add': 'signal-lost smoothing for 0.1 s at 50 ms',
      },
      { share: 30, smoothing: 600, charge: 600 },
    ],
    [
      'single-step',
      {
        duration: short,
        'firmware.smoothing.reference': 'source-ramp',
        'firmware.smoothing.dead_band': '2 %',
      },
      { share: 30, smoothing: 600, charge: 600 },
    ],
    // Sampled voltage loops: 50 ms hold 1000 runs of 50 µs; two timings are two tasks.
    [
      'single-step',
      {
        'load.at': '10 ms',
        duration: '50 ms',
        'shelves.loop_period': '50 us',
        'shelves.loop_latency': '25 us',
        'shelves.loop_jitter': '10 us',
        'shelves.loop_voltage_bits': '12',
        'shelves.loop_voltage_range': '64 V',
        'shelves.loop_command_quantum': '0.5 A',
      },
      { share: 5, smoothing: 100, charge: 100, voltage_loop: 1000 },
    ],
    [
      'modules-out',
      {
        'events.1.at': '10 ms',
        duration: '50 ms',
        'shelves.loop_period': '50 us',
        'shelves.S3.loop_period': '100 us',
      },
      { share: 5, smoothing: 100, charge: 100, voltage_loop_of_S1: 1000, voltage_loop_of_S3: 500 },
    ],
    [
      'shelf-trip',
      { 'events.1.at': '10 ms', duration: '20 ms', 'shelves.S2.loop_period': '20 us' },
      { share: 2, smoothing: 40, charge: 40, voltage_loop: 1000 },
    ],
  ])('do every run of %s %o alike', (name, changes, rows) => {
    const { heard } = embedded(name, changes);
    expect(Object.fromEntries(heard.map(({ id, rows: n }) => [id, n]))).toEqual(rows);
    const { out, code } = runProgram(folder, 'replay');
    for (const [id, n] of Object.entries(rows))
      expect(out).toMatch(new RegExp(`^${id}: ${n} runs, \\d+ numbers, 0 differ$`, 'm'));
    expect(code).toBe(0);
  });

  it('say which number differs where one bit of a vector is another', () => {
    embedded('single-step', { duration: '0.1 s' });
    const file = join(folder, 'share.vectors');
    const lines = readFileSync(file, 'utf8').split('\n');
    const words = lines[6]!.split(' ');
    words[words.length - 1] = '0x1.0000000000001p-3';
    lines[6] = words.join(' ');
    writeFileSync(file, lines.join('\n'));
    const { out, code } = runProgram(folder, 'replay');
    expect(out).toContain('share.vectors, row 2: ');
    expect(out).toContain('expected 0.12500000000000003');
    expect(out).toMatch(/^share: 10 runs, \d+ numbers, 1 differ$/m);
    expect(code).toBe(1);
  });

  it('do not take a part of the vectors for the whole', () => {
    const file = join(folder, 'smoothing.vectors');
    const text = readFileSync(file, 'utf8');
    writeFileSync(file, `${text.split('\n').slice(0, 8).join('\n')}\n`);
    const { out, code } = runProgram(folder, 'replay');
    expect(out).toMatch(/^smoothing\.vectors: \d+ runs, written with 200$/m);
    expect(code).toBe(1);
    writeFileSync(file, text);
  });

  it('refuse to be compiled in another precision', () => {
    const { file, header, source } = laws.share;
    writeFileSync(join(folder, `${file}.h`), header);
    writeFileSync(join(folder, `${file}.c`), source);
    writeFileSync(
      join(folder, 'wide.c'),
      '#include <float.h>\n#undef FLT_EVAL_METHOD\n#define FLT_EVAL_METHOD 2\n#include "share_law.c"\n',
    );
    // The header of the compiler defines it once: what is defined before stays.
    expect(() => compile(folder, 'wide', ['wide.c'])).toThrow('another precision');
  });
});

describe('what is heard', () => {
  it('is what the devices are told', () => {
    const scenario = shippedWith('single-step', { duration: '0.25 s', warm_up: '0 s' });
    const network = assemble(scenario);
    const { trays, stages } = network;
    const told: Record<string, number> = { share: 0, charge: 0 };
    const last = new Map<string, Float64Array>();
    simulate(network, makeDemand(scenario), {
      levels_V: new Float64Array(0),
      witness: (_, law, { command }, when) => {
        if (law === 'smoothing') return;
        const { command_V, given_W } = command as Record<string, Float64Array>;
        const commanded = (law === 'share' ? command_V : given_W)!;
        const device = law === 'share' ? stages.trim_V : trays.command_W;
        const before = last.get(law);
        // What the last run commanded stands in the device when the next one begins.
        if (when === 'before' && before !== undefined) {
          expect([...device.subarray(0, before.length)]).toEqual([...before]);
          told[law]!++;
        }
        if (when === 'after') last.set(law, commanded.slice());
      },
    });
    expect(told).toEqual({ share: 24, charge: 499 });
  });

  it('has no gain that an event changes', () => {
    const scenario = shippedWith('coolant-loss', { duration: '0.7 s' });
    const hear = (): Listened => listen(scenario, null, { line: () => {} });
    expect(hear).toThrow(BadInput);
    expect(hear).toThrow('trays.columns.power_limit_W[0] of the law charge changes at 0.5');
  });

  it('has no signal that an event makes later than its gains say', () => {
    const scenario = shippedWith('late-signal', { duration: '0.1 s', start: 'settled' });
    expect(() => listen(scenario, null, { line: () => {} })).toThrow('signal-late of smoothing');
  });

  it('leaves out a law that a controller replaces', () => {
    const scenario = shippedWith('own-share', { duration: '0.1 s' });
    const { heard, silent } = listen(scenario, null, { line: () => {} });
    expect(heard.map(({ id }) => id)).toEqual(['smoothing', 'charge']);
    expect(silent).toEqual(['share: a controller of your own runs in its place']);
  });

  it('leaves out smoothing and charge beside a smoothing of the user’s own, which commands in their place', () => {
    const scenario = shippedWith('own-share', { duration: '50 ms' });
    const [share] = scenario.controllers;
    const code = 'exports.controller = { run: (input) => input.energy_J.map(() => 0) };';
    const controllers = [{ ...share!, replaces: 'smoothing' as const, code }];
    const { heard, silent } = listen({ ...scenario, controllers }, null, { line: () => {} });
    expect(heard.map(({ id }) => id)).toEqual(['share']);
    expect(silent).toEqual(['smoothing and charge: a controller of your own runs in their place']);
  });
});
