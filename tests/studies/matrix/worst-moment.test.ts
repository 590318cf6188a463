/** The worst moment of the cycle: by values alone, against grids that are denser than the search ends. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { matrix } from '../../../src/studies/matrix/matrix.ts';
import { mostSearched } from '../../../src/studies/matrix/moments.ts';
import { planMatrix } from '../../../src/studies/matrix/plan.ts';
import type { RunOutcome, TrialFinding } from '../../../src/studies/trials/run-outcome.ts';
import type { RunTrials, Trial } from '../../../src/studies/trials/trial.ts';
import { emptyStudy, type StudyFile } from '../../../src/studies/written/study-file.ts';
import { passed } from '../../fixtures/outcome.ts';
import { folderOfEachTest } from '../../fixtures/own-folder.ts';
import { changes, contextHere, studyOf } from '../here.ts';

const { read, run } = contextHere();
const folder = folderOfEachTest();

/** Runs whose headroom is this function of when the shelf trips, within a cycle of 1.6 s that begins at 1 s. */
function made(headroom: (later_s: number) => number): RunTrials {
  const outcomeOf = ({ changes: all }: Trial<'run'>): RunOutcome => {
    const at = all.find(({ path }) => path === 'events.add')?.value.match(/at ([\d.]+) (m?)s/);
    const later_s = at === undefined || at === null ? 0 : Number(at[1]) * (at[2] === 'm' ? 1e-3 : 1) - 1;
    const finding: TrialFinding = {
      ...{ id: 'trim', column: 'normal', verdict: 'pass', value: 0.5, limit: 1, unit: 'ratio' },
      ...{ headroom_ratio: headroom(later_s), node: null, time_s: null },
    } as TrialFinding;
    return { ...passed, findings: [finding] };
  };
  return (async (trials: readonly Trial<'run'>[]) => trials.map(outcomeOf)) as unknown as RunTrials;
}

const study = (moments: string): StudyFile =>
  studyOf('matrix', 'pulse-train', {
    faults: [{ name: 'trip', changes: changes('events.add = shelf-trip S4 at 1 s', 'outage = yes') }],
    words: { moments },
  });

it.each([
  ['a kink', 0.53, (t: number) => 0.2 + Math.abs(t - 0.53)],
  ['a kink with another slope behind it', 0.91, (t: number) => (t < 0.91 ? 0.91 - t : 5 * (t - 0.91))],
  // On the side of the jump that counts the worst moment is the jump itself.
  ['a jump', 1.13, (t: number) => (t < 1.13 ? 1 : t - 1.13)],
  // The period ends at 1.6 s: its end is beside its beginning.
  ['a kink before the end of the cycle', 1.57, (t: number) => Math.min(Math.abs(t - 1.57), 1.6 + t - 1.57)],
])('is found at %s as near as the search ends, in few runs, and repeats', async (_, at_s, headroom) => {
  const plan = planMatrix(study('8'), read);
  const report = await matrix.carryOut(plan, made(headroom));
  const cell = report.cells[1]!;
  // Half of the spacing of 0.2 s, four times halved again.
  expect(Math.abs(cell.later_s - at_s)).toBeLessThanOrEqual(0.2 / 16 + 1e-9);
  expect(cell.headroom_ratio).toBeCloseTo(headroom(cell.later_s), 9);
  expect(report.simulations).toBeGreaterThan(plan.trials.length);
  expect(report.simulations).toBeLessThanOrEqual(plan.trials.length + mostSearched);
  expect(cell.replay).toContain('events.add=shelf-trip S4 at ');
  expect(plan.expects).toBe(plan.trials.length + mostSearched);
});

it('takes no moment at which the fault would come after the end of the run', async () => {
  const short = { ...study('4'), changes: changes('duration = 2.3 s') };
  const plan = planMatrix(short, read);
  const asked: number[] = [];
  await matrix.carryOut(
    plan,
    made((later_s) => {
      asked.push(later_s);
      return 1.3 - later_s;
    }),
  );
  expect(Math.max(...asked)).toBeGreaterThan(1.2);
  expect(Math.max(...asked)).toBeLessThan(1.3);
});

it('searches nothing where a fault is tried at the moment that is written alone', async () => {
  const plan = planMatrix(study('1'), read);
  expect(
    (
      await matrix.carryOut(
        plan,
        made(() => 1),
      )
    ).simulations,
  ).toBe(plan.trials.length);
  expect(matrix.parts?.held(plan)).toBe(null);
  expect(matrix.parts?.held(planMatrix(study('2'), read))?.length).toBe(3);
});

it('finds on a bench what a grid four times as dense finds, or worse', async () => {
  const [path, limits] = [folder('cycle.yaml'), folder('bus.csv')];
  // One limit, so that what decides is the deepest dip: a tray that goes in an edge of the load leaves it to the shelf.
  writeFileSync(
    limits,
    'clause,requirement,metric,bound,stay,applies,source\n1,deepest dip,bus-stay,>= 40 V,0 s,normal,test\n',
  );
  writeFileSync(
    path,
    [
      'title: Bench under a pulse train',
      `cabinet: ${join(process.cwd(), 'models/bench-cabinet.yaml')}`,
      'duration: 0.72 s',
      `changes: { limits: ${limits} }`,
      'load: { kind: pulse-train, low: 3 kW, high: 12 kW, period: 80 ms, duty: 50 %, edge: 1 ms }',
    ].join('\n'),
  );
  const on = (moments: string) =>
    planMatrix(
      {
        ...emptyStudy('matrix', path),
        faults: [{ name: 'tray', changes: changes('events.add = tray-out T1 at 127 ms') }],
        words: new Map([['moments', moments]]),
      },
      read,
    );
  const searched = await matrix.carryOut(on('4'), run);
  const plan = on('16');
  const dense = await matrix.carryOut({ ...plan, search: null }, run);
  const [found, grid] = [searched.cells[1]!, dense.cells[1]!];
  expect(searched.simulations).toBeLessThan(dense.simulations);
  expect([found.letter, found.binding]).toEqual([grid.letter, grid.binding]);
  expect(found.headroom_ratio).toBeLessThanOrEqual(grid.headroom_ratio! + 1e-3);
  // Between the moments of its own grid, which are 20 ms apart.
  expect((found.later_s / 0.02) % 1).toBeGreaterThan(0.1);
});
