/** The studies themselves, on runs short enough to try everything. */
import { describe, expect, it } from 'vitest';
import { BadInput } from '../../src/base/problem.ts';
import { eventKinds } from '../../src/scenario/occurrences.ts';
import { estimate } from '../../src/studies/estimate/estimate.ts';
import { planMatrix } from '../../src/studies/matrix/plan.ts';
import { matrixReport } from '../../src/studies/matrix/report.ts';
import { ratingRows, ratingSentence } from '../../src/studies/rating/paper.ts';
import { sizeWord } from '../../src/studies/size/judge.ts';
import { candidateRows, sizeSentence } from '../../src/studies/size/paper.ts';
import { isEnough } from '../../src/studies/spread/judge.ts';
import { spreadSentence } from '../../src/studies/spread/paper.ts';
import { planSpread } from '../../src/studies/spread/plan.ts';
import { spreadReport } from '../../src/studies/spread/report.ts';
import { readStudy } from '../../src/studies/written/read-study.ts';
import { changes, contextHere, rated, shown, sized, studyOf } from './here.ts';

const step = changes(...shown);

async function messageOf(work: () => unknown): Promise<string> {
  try {
    await work();
  } catch (error) {
    if (error instanceof BadInput) return error.message;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('size()', () => {
  it.each([
    [
      'trays.power_limit',
      '4 kW to 28 kW in 13',
      '14 kW',
      'ac-ramp-100ms',
      // Bends beside its limit, where trays no longer clip: with it in, every candidate is run.
      ['limits.tray-follows.normal = none', 'limits.tray-converter.normal = none'],
    ],
    ['banks.capacitance', '10 mF to 130 mF in 13', '50 mF', 'bus-floor', ['limits.bus-floor.normal = 0.972']],
    ['firmware.smoothing.time_constant', '1 s to 3.4 s in 13', '1.8 s', 'ac-ramp-100ms', []],
  ])('finds the least %s of %s that trying everything finds', async (path, values, least, binding, more) => {
    const study = studyOf('size', 'single-step', {
      changes: [...step, ...changes(...more)],
      vary: [[path, values]],
    });
    const searched = await sized(study, contextHere());
    const everything = await sized(study, contextHere(), { all: true });
    expect(searched.result).toEqual({ [path]: least });
    expect(everything.result).toEqual({ [path]: least });
    expect([searched.binding?.limit, everything.binding?.limit]).toEqual([binding, binding]);
    expect(searched.runs).toBeLessThan(everything.runs);
  });

  it('runs every candidate where limits bend beside their values between slews that were not tried', async () => {
    const study = studyOf('size', 'single-step', {
      changes: step,
      vary: [['shelves.slew_limit', '0.1 A/µs to 1.3 A/µs in 13']],
    });
    const report = await sized(study, contextHere());
    // Slower shelves let the bus swing beyond their over-voltage: they latch off, and the cabinet goes dark.
    expect(report.result).toEqual({ 'shelves.slew_limit': '400 kA/s' });
    expect(report.candidates).toHaveLength(13);
    expect(report.monotone).toEqual({
      holds: true,
      whole: true,
      note: 'no limit passes at less and fails at more: every candidate was run',
    });
  });

  it('says what never clears, and how near it came, where nothing passes', async () => {
    const study = studyOf('size', 'single-step', {
      changes: changes(...shown, 'limits.share-transient.normal = 0.1 %'),
      vary: [['trays.count', '9 to 10']],
    });
    const report = await sized(study, contextHere());
    expect(report.result).toBe(null);
    expect(report.binding).toMatchObject({ limit: 'share-transient', why: 'never clears' });
    expect(sizeSentence(report)).toMatch(
      /^Nothing that was tried passes: share-transient never clears at \S+; nearest at \d+/,
    );
  });

  it('names the limits that could not be judged at the answer: it passes with these conditions', async () => {
    const study = studyOf('size', 'recorded-training', {
      changes: changes('duration = 1.5 s', 'warm_up = 0.5 s'),
      vary: [['trays.count', '10']],
    });
    const report = await sized(study, contextHere());
    expect(report.candidates[0]?.not_judged).toContain('bus-2ms-low');
    expect(sizeSentence(report)).toMatch(
      /^trays\.count = 10 is the least that passes with conditions .* Its conditions: .*\bbus-2ms-low inconclusive; .* and \d+ more\.$/,
    );
    expect(sizeWord(report)).toBe('FOUND, WITH CONDITIONS');
    expect(candidateRows(report)[0]?.[1]).toBe('passes with conditions');
  });

  it('gives the least of the second for each of the first', async () => {
    const study = studyOf('size', 'single-step', {
      changes: step,
      vary: [
        ['trays.count', '8 | 10'],
        ['trays.power_limit', '5 kW | 10 kW | 20 kW'],
      ],
    });
    const report = await sized(study, contextHere(), { all: true });
    // Eight trays of 20 kW come within 1 % of their converters' limit, of which 5 % are to stay free.
    expect(report.front).toEqual([
      { first: '8', second: null },
      { first: '10', second: '20 kW' },
    ]);
    expect(report.result).toEqual({ 'trays.count': '10', 'trays.power_limit': '20 kW' });
  });

  it('takes the roomiest of places that pass, as places have no less and more', async () => {
    const study = studyOf('size', 'single-step', {
      changes: step,
      vary: [['banks.move', 'K1 to A first | K1 to A after T2 | K1 to A last']],
    });
    const report = await sized(study, contextHere());
    const room = report.candidates.map(({ tightest_ratio }) => tightest_ratio);
    const best = report.candidates[room.indexOf(Math.max(...room))]!;
    expect(report.result).toEqual(best.values);
    expect(report.binding?.why).toBe('tightest at the roomiest');
  });

  it.each([
    ['shelves.count', '7 to 9', ['7', '8', '9']],
    ['batteries.count', '4 to 6', ['4', '5', '6']],
    ['banks.count', '1 to 3', ['1', '2', '3']],
    ['shelves.move', 'S1 to A first | S1 to A after T2', null],
    ['batteries.move', 'B1 to A after T1 | B1 to A last', null],
    ['bars.links.LA1.place', '1 | 2', ['1', '2']],
  ])('varies %s', async (path, values, ordered) => {
    const study = studyOf('size', 'single-step', {
      changes: step,
      vary: [[path, values]],
    });
    const report = await sized(study, contextHere());
    expect(report.ordered).toBe(ordered !== null);
    const tried = report.candidates.map((one) => one.values[path]);
    expect(tried).toEqual(ordered ?? values.split(' | '));
    // Each is another cabinet: no two come out alike.
    expect(new Set(report.candidates.map((one) => one.tightest_ratio)).size).toBeGreaterThan(1);
  });

  it('varies a design that makes several changes at once, least first, and names it in the answer', async () => {
    const text = `study: size
title: Bars
scenario: ../../scenarios/single-step.yaml
changes: [load.at = 0.1 s, duration = 0.61 s, limits.bus-floor.normal = 0.972]
vary:
  bar section:
    thin: [bars.segment.resistance = 60 µΩ, bars.links.resistance = 120 µΩ, bars.links.inductance = 640 nH]
    thick: [bars.segment.resistance = 8 µΩ, bars.links.resistance = 15 µΩ, bars.links.inductance = 80 nH]
`;
    const study = readStudy('tests/studies/bars.yaml', 'size', (path) =>
      path === 'tests/studies/bars.yaml' ? { text, sha256: '' } : null!,
    );
    const report = await sized({ ...study, scenario: 'scenarios/single-step.yaml' }, contextHere());
    expect(report.candidates.map(({ values }) => values)).toEqual([
      { 'bar section': 'thin' },
      { 'bar section': 'thick' },
    ]);
    expect(report.candidates[1]?.replay).toContain("--set 'bars.segment.resistance=8 µΩ'");
    expect(report.candidates[0]!.tightest_ratio).toBeLessThan(report.candidates[1]!.tightest_ratio);
    expect(report.levers[0]?.at).toBe('bar section = thin');
    // A slower start, another control form, cooler coolant and a faster signal are tried where a study names no levers.
    const pulled = report.levers.map(({ changes }) => changes);
    for (const path of [
      'load.edge',
      'firmware.smoothing.reference',
      'trays.coolant_temperature',
      'firmware.smoothing.latency',
    ]) {
      expect(pulled.filter((text) => text.includes(path))).toHaveLength(1);
    }
  });

  it('refuses what cannot be at its far end before anything runs', async () => {
    const here = contextHere();
    const study = studyOf('size', 'single-step', { vary: [['trays.count', '6 to 60']] });
    expect(await messageOf(() => sized(study, here))).toContain('found     60');
    expect(here.trials).toEqual([]);
  });

  it('refuses an unknown path and names the nearest', async () => {
    const study = studyOf('size', 'single-step', { vary: [['trays.cout', '10 | 12']] });
    expect(await messageOf(() => sized(study, contextHere()))).toContain('nearest: trays.count');
  });
});

describe('estimate()', () => {
  it('asks by energy alone for one tray, by start power for eleven', () => {
    const { read } = contextHere();
    const made = estimate([
      { name: 'pulses', read: read({ scenario: 'scenarios/pulse-train.yaml', changes: [] }) },
      {
        name: 'idle to full',
        read: read({ scenario: 'scenarios/single-step.yaml', changes: changes('load.before = 31.2 kW') }),
      },
    ])!;
    expect([made.energyAlone, made.most]).toEqual([1, { trays: 11, rule: 5, title: 'Start power' }]);
    expect(new Set(made.lines.map(({ rule }) => rule))).toEqual(
      new Set([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14]),
    );
    const trays = (rule: number, about: string) =>
      made.lines.find((line) => line.rule === rule && line.about === about)?.trays;
    // 140 kW · 0.7 · 0.3 · 1.6 s over nine tenths of 162.5 F/2 · (43.2² − 28.8²).
    expect(trays(3, 'pulses')).toBeCloseTo(47040 / (0.9 * 84240), 6);
    expect(trays(4, 'idle to full')).toBeCloseTo((2.8 * 208800) / (0.9 * 84240), 6);
    expect(trays(5, 'idle to full')).toBeCloseTo(208.8 / 20, 12);
  });
});

describe('matrix()', () => {
  it('has a fault for each kind of event, in circumstances in which it is felt', () => {
    const study = studyOf('matrix', 'single-step', {
      everyFault: { at: '0.2 s', units: 'one', back: '0.4 s' },
    });
    const { faults } = planMatrix(study, contextHere().read);
    const happened = faults.flatMap(({ changes: made }) => made.flatMap(({ value }) => value.split(' ')[0]!));
    expect(new Set(happened)).toEqual(new Set([...eventKinds, 'yes']));
    // What comes back is no outage; a battery that does not start is felt without AC only.
    const named = (name: string) => faults.find((fault) => fault.name === name)?.changes.map((c) => c.value);
    expect(named('ac-loss all')).toEqual(['ac-loss all at 0.2 s', 'ac-return all at 0.4 s']);
    expect(named('battery-fail B3, AC lost')).toEqual([
      'battery-fail B3 at 0.2 s',
      'ac-loss all at 0.2 s',
      'ac-return all at 0.4 s',
      'yes',
    ]);
    expect(named('shelf-join S4')).toEqual(['shelf-trip S4 at 0.2 s', 'shelf-join S4 at 0.4 s', 'yes']);
  });

  it('gives each cell a letter, its binding limit and the command that repeats it', async () => {
    const study = studyOf('matrix', 'single-step', {
      changes: step,
      faults: [{ name: 'tray out', changes: changes('events.add = tray-out T4 at 10 ms', 'outage = yes') }],
      corners: [
        { name: 'new', changes: [] },
        { name: 'aged', changes: changes('ageing.trays = end-of-life') },
      ],
    });
    const { read, run } = contextHere();
    const plan = planMatrix(study, read);
    const report = matrixReport(plan, await run(plan.trials));
    expect(report.cells.map(({ fault, corner }) => `${fault}/${corner}`)).toEqual([
      'no fault/new',
      'no fault/aged',
      'tray out/new',
      'tray out/aged',
    ]);
    expect(report.cells[3]?.replay).toBe(
      "buswake run scenarios/single-step.yaml --set 'load.at=0.1 s' --set 'duration=0.61 s' --set ageing.trays=end-of-life --set 'events.add=tray-out T4 at 10 ms' --set outage=yes",
    );
    // Half a second does not show what flicker and heat ask for: no cell passes clean.
    for (const { letter, binding } of report.cells)
      expect([letter, binding]).toEqual(['C', 'tray-converter']);
  });

  it('refuses every wrong cell at once', async () => {
    const study = studyOf('matrix', 'single-step', {
      faults: [{ name: 'tray', changes: changes('events.add = tray-out T44 at 0.2 s') }],
      corners: [{ name: 'odd', changes: changes('trays.esrr = 1 mΩ') }],
    });
    const message = await messageOf(() => planMatrix(study, contextHere().read));
    expect(message).toContain('nearest: T4');
    expect(message).toContain('nearest: trays.esr');
  });
});

describe('rating()', () => {
  it('finds the largest scale that passes, as trying everything does', async () => {
    const study = studyOf('rating', 'single-step', {
      changes: step,
      words: { from: '84 %', to: '132 %', within: '4 %' },
    });
    const searched = await rated(study, contextHere());
    const everything = await rated(study, contextHere(), { all: true });
    // The sleds stand for 105 % of their rating; one job loads them unevenly, by 4 %.
    expect([searched.scale_ratio, searched.binding]).toEqual([1, 'sled-power-250ms']);
    expect([everything.scale_ratio, everything.binding]).toEqual([1, 'sled-power-250ms']);
    expect(searched.runs).toBeLessThan(everything.runs);
    expect(searched.scaled).toEqual(['load.before', 'load.after']);
  });
});

describe('rating(), where it is not simply so', () => {
  it('says which limit never clears, at which scale it came nearest and by how much it is beyond', async () => {
    const study = studyOf('rating', 'single-step', {
      changes: changes(...shown, 'limits.share-transient.normal = 0.1 %'),
      words: { from: '80 %', to: '100 %', within: '20 %' },
    });
    const report = await rated(study, contextHere());
    expect(report.table[0]).toMatchObject({
      scale_ratio: null,
      binding: 'share-transient',
      nearest_ratio: 0.8,
    });
    expect(report.table[0]?.headroom_ratio).toBeLessThan(-1);
    // The command repeats the scale that came nearest.
    expect(report.table[0]?.replay).toContain("--set 'load.after=192 kW'");
    expect(ratingSentence(report)).toMatch(
      /^No scale of load\.before, load\.after that was tried passes: share-transient never clears; nearest at 80 % \([\d.]+ % against 0\.1 %\)\.$/,
    );
  });

  it('names the limits that could not be judged at the largest scale: it passes with these conditions', async () => {
    // 50 samples a second show up to 22 Hz; no limit on milliseconds can be judged from them.
    const study = studyOf('rating', 'recorded-training', {
      changes: changes('duration = 1.5 s', 'warm_up = 0.5 s'),
      scale: ['load.peak'],
      words: { from: '90 %', to: '100 %', within: '10 %' },
    });
    const report = await rated(study, contextHere());
    expect(report.table[0]?.not_judged).toContain('bus-2ms-low');
    expect(ratingSentence(report)).toContain(' passes with conditions, ');
    expect(ratingSentence(report)).toMatch(/ Its conditions: .*\bbus-2ms-low inconclusive; /);
    expect(ratingRows(report)[0]?.at(-1)).toMatch(/^passes with conditions; .*\bbus-2ms-low inconclusive/);
  });

  it('gives the command for each point of the pulsed curve', async () => {
    const study = studyOf('rating', 'pulse-train', {
      changes: changes('duration = 0.2 s'),
      words: { from: '90 %', to: '110 %', within: '10 %', duty: '50 %', period: '0.1 s' },
    });
    const [point] = (await rated(study, contextHere())).curve;
    expect(point?.replay).toMatch(
      /^buswake run scenarios\/pulse-train\.yaml --set 'duration=0\.2 s' --set 'load\.period=0\.1 s' --set 'load\.duty=50 %' --set 'load\.high=[\d.]+ kW'$/,
    );
    expect(point?.replay).toContain(`load.high=${(point?.high_W ?? 0) / 1000} kW`);
  });
});

describe('rating(), asked for what is none', () => {
  it.each([
    [{ scale: ['load.hih'] }, 'nearest: load.high'],
    [{ words: { from: '150 %', to: '50 %' } }, 'write from 50 % to 150 %'],
    [{ words: { within: '0 %' } }, '0 %, which is not above 0'],
    [{ words: { from: '50', to: '100' } }, 'write from 50 % to 100 %'],
  ])('refuses %j and says what to write', async (parts, mend) => {
    expect(await messageOf(() => rated(studyOf('rating', 'pulse-train', parts), contextHere()))).toContain(
      mend,
    );
  });
});

describe('spread', () => {
  const tolerances = [['shelves.set_point_offset', 'uniform from -0.25 % to 0.25 %']] as const;

  it('refuses zero samples, a path that is none, a tolerance that is none', async () => {
    const { read } = contextHere();
    const plan = (parts: Parameters<typeof studyOf>[2]) => () =>
      planSpread(studyOf('spread', 'single-step', parts), read);
    expect(await messageOf(plan({ tolerances, words: { samples: '0' } }))).toMatchInlineSnapshot(`
      "samples
        found     0 samples
        expected  a whole number from 1 to 500000
        mend      write samples: 200, or --samples 200 on the command line
      1 problem. Nothing was run."
    `);
    expect(await messageOf(plan({ tolerances: [['trays.esrr', 'uniform by 5 %']] }))).toMatchInlineSnapshot(`
      "trays.esrr
        found     path trays.esrr
        expected  a path of the scenario that is a number
        mend      nearest: trays.esr, trays.move, trays.T1.esr
      1 problem. Nothing was run."
    `);
    expect(await messageOf(plan({ tolerances: [['trays.esr', 'about 5 %']] }))).toMatchInlineSnapshot(`
      "trays.esr
        found     no tolerance in about 5 %
        expected  a tolerance
        mend      write it like uniform by 5 %, uniform plus -0.25 % to 0.25 %, normal by 3 % or lognormal by 30 %, common
      1 problem. Nothing was run."
    `);
    expect(await messageOf(plan({}))).toMatchInlineSnapshot(`
      "tolerances
        found     nothing to sample
        expected  at least one tolerance
        mend      give for example --tolerance "trays.esr=normal by 10 %"
      1 problem. Nothing was run."
    `);
  });

  it('draws times in whole ticks', () => {
    const study = studyOf('spread', 'single-step', {
      tolerances: [['firmware.smoothing.latency', 'uniform by 50 %']],
      words: { samples: '20' },
    });
    const { read } = contextHere();
    for (const trial of planSpread(study, read).trials) expect(() => read(trial)).not.toThrow();
  });

  it('draws counts whole and evenly: a seed for each sample shifts the sleds anew', () => {
    const study = studyOf('spread', 'training-iterations', {
      tolerances: [['seed', 'uniform from 1 to 4']],
      words: { samples: '40' },
    });
    const { read } = contextHere();
    const plan = planSpread(study, read);
    const seeds = plan.trials.map(({ changes: made }) => made.at(-1)?.value);
    for (const seed of ['1', '2', '3', '4']) expect(seeds.filter((one) => one === seed)).toHaveLength(10);
    expect(read(plan.trials[0]!).scenario.seed).toBe(Number(seeds[0]));
  });

  it('looks for enough only at whole beginnings, so that nobody who finishes first decides', () => {
    const study = studyOf('spread', 'single-step', {
      tolerances,
      words: { samples: '200', half_width: '5 %' },
    });
    const plan = planSpread(study, contextHere().read);
    const pass = {
      status: 'ok',
      verdict: 'pass',
      summary: '',
      became: 'steady',
      collapse: null,
      conditions: [],
      warnings: [],
      findings: [],
      metrics: null,
    } as const;
    const enough = isEnough(plan);
    const first = Array.from({ length: 200 }, (_, k) => k + 1).find((n) => enough(new Array(n).fill(pass)));
    expect(first).toBe(40);
    expect(spreadReport(plan, new Array(40).fill(pass))).toMatchObject({
      runs: 40,
      stopped_early: true,
      passed: 40,
    });
  });

  it('counts those that pass with conditions, and names what could not be judged in them', async () => {
    const study = studyOf('spread', 'recorded-training', {
      changes: changes('duration = 1.5 s', 'warm_up = 0.5 s'),
      tolerances: [['shelves.droop', 'uniform by 5 %']],
      words: { samples: '2' },
    });
    const { read, run } = contextHere();
    const plan = planSpread(study, read);
    const report = spreadReport(plan, await run(plan.trials));
    expect([report.passed, report.conditional]).toEqual([2, 2]);
    expect(report.not_judged).toContain('bus-2ms-low');
    expect(spreadSentence(report)).toMatch(/^2 of 2 pass with conditions: yield 100 %/);
  });
});
