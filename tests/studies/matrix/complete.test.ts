/** Faults in pairs and at several moments of the cycle, faults that do not happen, and what a matrix says it has tried. */
import { describe, expect, it } from 'vitest';
import { coverageWords } from '../../../src/studies/matrix/coverage.ts';
import { matrix } from '../../../src/studies/matrix/matrix.ts';
import { matrixSentence, placeOf, unfeltNote } from '../../../src/studies/matrix/paper.ts';
import { planMatrix } from '../../../src/studies/matrix/plan.ts';
import { matrixReport } from '../../../src/studies/matrix/report.ts';
import type { RunOutcome } from '../../../src/studies/trials/run-outcome.ts';
import type { Variant } from '../../../src/studies/written/study-file.ts';
import { passed } from '../../fixtures/outcome.ts';
import { changes, contextHere, messageOf, studyOf } from '../here.ts';

const fault = (...events: readonly string[]): Variant => ({
  name: events.join(', '),
  changes: changes(...events.map((event) => `events.add = ${event}`), 'outage = yes'),
});

const trip = fault('shelf-trip S4 at 1 s');
const tray = fault('tray-out T4 at 1 s');
const sag = fault('ac-sag all to 70 % for 0.5 s at 1 s');

const planned = (
  words: Readonly<Record<string, string>>,
  faults = [trip, tray, sag],
  scenario = 'pulse-train',
) => planMatrix(studyOf('matrix', scenario, { faults, words }), contextHere().read);

describe('a matrix', () => {
  it('plays every two of its faults at once, but none with itself', () => {
    const plan = planned({ pairs: 'yes' }, [trip, tray, sag, fault('shelf-trip S4 at 2 s')]);
    const pairs = plan.faults.map(({ name }) => name).filter((name) => name.includes(' + '));
    expect(pairs).toEqual([
      'shelf-trip S4 at 1 s + tray-out T4 at 1 s',
      'shelf-trip S4 at 1 s + ac-sag all to 70 % for 0.5 s at 1 s',
      'tray-out T4 at 1 s + ac-sag all to 70 % for 0.5 s at 1 s',
      'tray-out T4 at 1 s + shelf-trip S4 at 2 s',
      'ac-sag all to 70 % for 0.5 s at 1 s + shelf-trip S4 at 2 s',
    ]);
    expect(plan.coverage.pairs).toEqual({ run: 5, possible: 6 });
    const both = plan.trials.find((_, k) => plan.places[plan.tries[k]!.place]!.fault === pairs[0])!;
    expect(both.changes.filter(({ path }) => path === 'events.add').map(({ value }) => value)).toEqual([
      'shelf-trip S4 at 1 s',
      'tray-out T4 at 1 s',
    ]);
  });

  it('tries each fault at moments of the cycle: the worst counts, is said and can be run again', () => {
    const plan = planned({ moments: '4' }, [fault('ac-loss all at 1 s', 'ac-return all at 2 s')]);
    // Without a fault there is no moment; the period is 1.6 s.
    expect(plan.tries).toEqual([
      { place: 0, later_s: 0 },
      ...[0, 0.4, 0.8, 1.2].map((later_s) => ({ place: 1, later_s })),
    ]);
    const outcomes = plan.trials.map(({ changes: made }): RunOutcome => {
      const bad = made.some(({ value }) => value === 'ac-loss all at 1.8 s');
      return bad ? { ...passed, verdict: 'fail', summary: 'Fails.' } : passed;
    });
    const report = matrixReport(plan, outcomes);
    expect([report.runs, report.simulations, report.passed]).toEqual([2, 5, 1]);
    const [, worst] = report.cells;
    expect(worst).toMatchObject({ letter: 'F', later_s: 0.8 });
    expect(placeOf(worst!)).toBe(
      'ac-loss all at 1 s, ac-return all at 2 s, 0.8 s later'.replace('0.8 s', '800 ms'),
    );
    expect(worst!.replay).toContain("'events.add=ac-loss all at 1.8 s'");
    expect(worst!.replay).toContain("'events.add=ac-return all at 2.8 s'");
    expect(matrixSentence(report)).toContain('800 ms later');
  });

  it('says what was run and what was not', () => {
    const { coverage } = planned({ moments: '2' }, [trip, tray]);
    expect(coverage.kinds).toEqual([
      { kind: 'shelf-trip', struck: ['S4'], units: 8 },
      { kind: 'tray-out', struck: ['T4'], units: 10 },
    ]);
    expect(coverage.kinds_not_run).toContain('battery-fail');
    expect(coverageWords(coverage)).toMatch(
      /^Run: 2 of \d+ kinds of fault that this cabinet may meet, on 2 of the 18 units .*; none of 1 pair of these faults; each at 2 moments of the cycle, evenly, and at up to 8 more about the worst, which counts\. Not run: .*battery-fail/,
    );
  });

  it('plays a fault before the cabinet has come to rest, in the walk-in after AC was lost', async () => {
    const { read, run } = contextHere();
    const study = studyOf('matrix', 'bench-step', {
      changes: changes('duration = 0.4 s'),
      corners: [
        {
          name: 'in walk-in',
          changes: changes('events.add = ac-loss F1 at 20 ms', 'events.add = ac-return F1 at 60 ms'),
        },
      ],
      faults: [fault('tray-out T1 at 0.2 s')],
    });
    const report = await matrix.carryOut(planMatrix(study, read), run);
    expect(report.cells[1]!.unfelt).toBe(null);
    expect(report.cells[1]!.replay).toContain("--set 'events.add=ac-return F1 at 60 ms'");
    expect(unfeltNote(report)).toBe('');
  });

  it('names a fault that did not happen, and does not end as passed', async () => {
    const { read, run } = contextHere();
    const study = studyOf('matrix', 'bench-step', {
      changes: changes('duration = 0.4 s'),
      // A way back with nothing to come back from.
      faults: [fault('shelf-join S1 at 0.2 s')],
    });
    const report = await matrix.carryOut(planMatrix(study, read), run);
    expect(report.cells[1]!.unfelt).toBe('shelf-join S1 at 200 ms changed nothing');
    expect(unfeltNote(report)).toBe(
      'In 1 cell the fault did not happen: shelf-join S1 at 0.2 s (shelf-join S1 at 200 ms changed nothing).',
    );
    expect(matrix.end(report)).not.toBe('passed');
  });

  it('refuses moments of a load without a cycle, and words that are none', async () => {
    expect(await messageOf(() => planned({ moments: '4' }, [trip], 'single-step'))).toContain(
      '4 moments of the cycle of a load of kind step',
    );
    expect(await messageOf(() => planned({ moments: '0' }))).toContain('a whole number from 1 to 64');
    expect(await messageOf(() => planned({ pairs: 'maybe' }))).toContain('yes or no');
  });
});
