/** Ratings on runs short enough to try every scale. */
import { describe, expect, it } from 'vitest';
import { ratingRows, ratingSentence } from '../../../src/studies/rating/paper.ts';
import { changes, contextHere, messageOf, rated, shown, studyOf } from '../here.ts';

const step = changes(...shown);

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
