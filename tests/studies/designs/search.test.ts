/** The search for the front against brute force, on designs whose outcomes are drawn: every verdict is possible. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Objective } from '../../../src/studies/designs/objectives.ts';
import type { Design, DesignsPlan } from '../../../src/studies/designs/plan.ts';
import { frontOf } from '../../../src/studies/designs/rank.ts';
import { searchFront } from '../../../src/studies/designs/search.ts';
import type { RunOutcome } from '../../../src/studies/trials/run-outcome.ts';
import type { RunWhole } from '../../../src/studies/trials/trial.ts';
import { passed } from '../../fixtures/outcome.ts';

/** One design as it would come out: small whole numbers, so that many are alike. */
interface Drawn {
  readonly cost: number;
  readonly mass: number;
  readonly loss: number;
  /** In each situation, in tenths; below 0 it fails. */
  readonly rooms: readonly number[];
  /** Of each sample of its yield. */
  readonly survives: readonly boolean[];
}

const samples = 3;

const drawnDesign = (situations: number): fc.Arbitrary<Drawn> =>
  fc.record({
    cost: fc.integer({ min: 1, max: 5 }),
    mass: fc.integer({ min: 1, max: 5 }),
    loss: fc.integer({ min: 1, max: 4 }),
    rooms: fc.array(fc.integer({ min: -1, max: 4 }), { minLength: situations, maxLength: situations }),
    survives: fc.array(fc.boolean(), { minLength: samples, maxLength: samples }),
  });

const grids = fc
  .integer({ min: 1, max: 3 })
  .chain((situations) => fc.array(drawnDesign(situations), { minLength: 1, maxLength: 24 }));

const objectives = fc.constantFrom<readonly Objective[]>(
  ['cost'],
  ['losses'],
  ['headroom'],
  ['cost', 'mass'],
  ['cost', 'losses'],
  ['mass', 'headroom'],
  ['losses', 'headroom'],
  ['cost', 'yield'],
);

/** What a design is worth, less being better, written out anew. */
function worth({ cost, mass, loss, rooms, survives }: Drawn, objective: Objective): number {
  if (objective === 'cost') return cost;
  if (objective === 'mass') return mass;
  if (objective === 'losses') return loss;
  return objective === 'headroom' ? -Math.min(...rooms) : -survives.filter(Boolean).length;
}

function bruteForce(grid: readonly Drawn[], by: readonly Objective[]): number[] {
  const good = grid.flatMap((one, k) => (one.rooms.every((room) => room >= 0) ? [k] : []));
  const points = new Map(good.map((k) => [k, by.map((objective) => worth(grid[k]!, objective))]));
  return good.filter(
    (k) =>
      !good.some((other) => {
        const [a, b] = [points.get(other)!, points.get(k)!];
        return a.every((value, j) => value <= b[j]!) && a.some((value, j) => value < b[j]!);
      }),
  );
}

function planned(grid: readonly Drawn[], by: readonly Objective[]): DesignsPlan {
  const designs = grid.map(
    ({ cost, mass }, k): Design => ({
      values: { design: String(k) },
      changes: [{ path: 'design', value: String(k) }],
      bill: { lines: [], totals: { cost, mass, rack_units: null } },
      draws: by.includes('yield')
        ? Array.from({ length: samples }, (_, s) => [{ path: 'sample', value: String(s) }])
        : [],
    }),
  );
  const situations = grid[0]!.rooms.map((_, k) => ({
    name: `situation ${k}`,
    scenario: 'any.yaml',
    before: [],
    after: [{ path: 'situation', value: String(k) }],
  }));
  return { designs, situations, objectives: by } as unknown as DesignsPlan;
}

/** Answers a trial as drawn, and writes down which design was asked for. */
function answering(grid: readonly Drawn[], asked: number[]): RunWhole {
  return async (trials) =>
    trials.map(({ changes }): RunOutcome => {
      const of = (path: string): string | undefined => changes.find((change) => change.path === path)?.value;
      const design = Number(of('design'));
      asked.push(design);
      const drawn = grid[design]!;
      const sample = of('sample');
      const tenths =
        sample === undefined
          ? drawn.rooms[Number(of('situation'))]!
          : drawn.survives[Number(sample)]
            ? 1
            : -1;
      const verdict = tenths < 0 ? 'fail' : 'pass';
      const finding = {
        id: 'limit',
        column: 'normal',
        value: 0,
        limit: 1,
        unit: 'V',
        node: null,
        time_s: null,
      };
      return {
        ...passed,
        verdict,
        findings: [{ ...finding, verdict, headroom_ratio: tenths / 10 } as RunOutcome['findings'][number]],
        loss_mean_W: drawn.loss,
      };
    });
}

it('the front is that of brute force, whatever passes where', async () => {
  await fc.assert(
    fc.asyncProperty(grids, objectives, async (grid, by) => {
      const courses = await searchFront(planned(grid, by), answering(grid, []));
      const through = courses.filter(({ isThrough }) => isThrough);
      const front = frontOf(through, ({ best }) => best).map(({ design }) => Number(design.values['design']));
      expect(front).toEqual(bruteForce(grid, by));
    }),
    { seed: 7, numRuns: 600 },
  );
});

it('of objectives known beforehand no design is run that a passing one beats', async () => {
  await fc.assert(
    fc.asyncProperty(
      grids,
      fc.constantFrom<readonly Objective[]>(['cost'], ['cost', 'mass']),
      async (grid, by) => {
        const asked: number[] = [];
        await searchFront(planned(grid, by), answering(grid, asked));
        const able = bruteForce(grid, by);
        for (const design of asked) {
          const own = by.map((objective) => worth(grid[design]!, objective));
          const isBeaten = able.some((k) => {
            const other = by.map((objective) => worth(grid[k]!, objective));
            return other.every((value, j) => value <= own[j]!) && other.some((value, j) => value < own[j]!);
          });
          expect(isBeaten).toBe(false);
        }
      },
    ),
    { seed: 8, numRuns: 300 },
  );
});

it('a design that is beaten already is asked for nothing more', async () => {
  const cheap: Drawn = { cost: 1, mass: 1, loss: 1, rooms: [4, 4, 4], survives: [] };
  // As cheap as the other and tight at once: its other situations cannot mend that.
  const tight: Drawn = { cost: 2, mass: 1, loss: 1, rooms: [1, 4, 4], survives: [] };
  const asked: number[] = [];
  // As many cheap ones as fill a round: they are through before the first of the others begins.
  const grid = [...Array.from({ length: 16 }, () => cheap), ...Array.from({ length: 16 }, () => tight)];
  await searchFront(planned(grid, ['cost', 'headroom']), answering(grid, asked));
  expect(asked.filter((design) => design >= 16)).toHaveLength(16);
});
