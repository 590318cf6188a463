/** Sizes searched on runs short enough to try every candidate. */
import { describe, expect, it } from 'vitest';
import { isAlike } from '../../../src/studies/search/alike.ts';
import { sizeWord } from '../../../src/studies/size/judge.ts';
import { candidateRows, sizeSentence } from '../../../src/studies/size/paper.ts';
import { readStudy } from '../../../src/studies/written/read-study.ts';
import { changes, contextHere, messageOf, shown, sized, studyOf } from '../here.ts';

const step = changes(...shown);

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
    const searched = await sized(study, contextHere(), { levers: false });
    const everything = await sized(study, contextHere(), { all: true, levers: false });
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
    const report = await sized(study, contextHere(), { levers: false });
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
    const report = await sized(study, contextHere(), { levers: false });
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
    const report = await sized(study, contextHere(), { levers: false });
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
    const report = await sized(study, contextHere(), { all: true, levers: false });
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
    const report = await sized(study, contextHere(), { levers: false });
    const room = report.candidates.map(({ tightest_ratio }) => tightest_ratio);
    // Of one bank of two the place hardly matters here: the first of those that are alike is taken, the others are named.
    const best = report.candidates.filter((_, k) => isAlike(room[k]!, Math.max(...room)));
    expect(report.result).toEqual(best[0]!.values);
    expect(report.alike).toEqual(best.slice(1).map(({ values }) => values['banks.move']));
    expect(report.alike.length).toBeGreaterThan(0);
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
    const report = await sized(study, contextHere(), { levers: false });
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
    expect(await messageOf(() => sized(study, contextHere()))).toMatch(/nearest: (.*, )?trays\.count\b/);
  });
});
