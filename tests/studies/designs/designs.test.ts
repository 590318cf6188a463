/** Designs of the smallest cabinet, run; the fronts are those of brute force over the whole grid. */
import { describe, expect, it } from 'vitest';
import { designsMarkdown, designsSentence } from '../../../src/studies/designs/paper.ts';
import { planDesigns } from '../../../src/studies/designs/plan.ts';
import type { DesignsReport } from '../../../src/studies/designs/report.ts';
import { frontRows } from '../../../src/studies/designs/tables.ts';
import { trialsOf } from '../../../src/studies/search/candidates.ts';
import { passes, type RunOutcome, tightest } from '../../../src/studies/trials/run-outcome.ts';
import type { StatedFigure } from '../../../src/studies/written/figures.ts';
import type { StudyFile, Variant } from '../../../src/studies/written/study-file.ts';
import { passed } from '../../fixtures/outcome.ts';
import { always, changes, contextHere, designed, messageOf, studyOf } from '../here.ts';

const origin = { file: 'study.yaml', line: 1, column: 1 };

function figure(family: StatedFigure['family'], name: StatedFigure['figure'], value: number): StatedFigure {
  return { family, figure: name, value, source: 'assumed', why: 'of this test', origin };
}

/** What a tray of so many kilowatts costs and weighs here: no row of the grid is free. */
const trayCost = (kW: number): number => 100 + 12 * kW;
const trayMass = (kW: number): number => 30 - kW / 2;
const bankCost = (mF: number): number => 2 * mF;

const trays: readonly Variant[] = [4, 8, 12, 16, 20].map((kW) => ({
  name: `${kW} kW`,
  changes: changes(
    `trays.power_limit = ${kW} kW`,
    `trays.cost = ${trayCost(kW)}`,
    `trays.mass = ${trayMass(kW)} kg`,
  ),
}));
const banks: readonly Variant[] = [20, 60, 100].map((mF) => ({
  name: `${mF} mF`,
  changes: changes(`banks.capacitance = ${mF} mF`, `banks.cost = ${bankCost(mF)}`),
}));
const list = (variants: readonly Variant[]): string => variants.map(({ name }) => name).join(' | ');

const bench = (objectives: string, more: Partial<StudyFile> = {}): StudyFile => ({
  ...studyOf('designs', 'bench-step', {
    changes: changes('duration = 0.61 s', 'load.at = 0.1 s', 'limits.tray-charge-high.normal = none'),
    vary: [
      ['tray', list(trays)],
      ['bank', list(banks)],
    ],
    designs: { tray: trays, bank: banks },
    figures: [figure('shelves', 'cost', 900), figure('shelves', 'mass', 20), figure('banks', 'mass', 3)],
    words: { objectives },
  }),
  ...more,
});

const carriedOut = (study: StudyFile): Promise<DesignsReport> => designed(study, contextHere());

/** Every design of the grid, run in its one situation. */
async function everything(study: StudyFile) {
  const { read, run } = contextHere();
  const { situations } = planDesigns(study, read);
  const grid = trays.flatMap((tray) => banks.map((bank) => ({ tray, bank })));
  const outcomes = await run(
    grid.flatMap(({ tray, bank }) => trialsOf(situations, [...tray.changes, ...bank.changes])),
  );
  return grid.map(({ tray, bank }, k) => ({
    name: [tray.name, bank.name].join(', '),
    kW: Number.parseFloat(tray.name),
    mF: Number.parseFloat(bank.name),
    outcome: outcomes[k]!,
  }));
}

type One = Awaited<ReturnType<typeof everything>>[number];

const own: Readonly<Record<string, (one: One) => number>> = {
  cost: ({ kW, mF }) => 900 + trayCost(kW) + bankCost(mF),
  mass: ({ kW }) => 20 + trayMass(kW) + 3,
  losses: ({ outcome }) => Number((outcome.loss_mean_W! * 365.25 * 86_400).toPrecision(4)),
  headroom: ({ outcome }) => -Math.round(tightest(outcome) * 1000),
};

/** Those that pass and that no other one that passes beats. */
function bruteFront(all: readonly One[], by: readonly string[]): string[] {
  const good = all.filter(({ outcome }) => passes(outcome));
  const point = (one: One): number[] => by.map((name) => own[name]!(one));
  return good
    .filter(
      (one) =>
        !good.some((other) => {
          const [a, b] = [point(other), point(one)];
          return a.every((x, k) => x <= b[k]!) && a.some((x, k) => x < b[k]!);
        }),
    )
    .map(({ name }) => name);
}

const names = ({ front }: DesignsReport): string[] =>
  front.map(({ values }) => Object.values(values).join(', '));

describe('designs()', () => {
  it.each(['cost, mass', 'cost', 'mass', 'headroom', 'cost, losses'])(
    'by %s has the front of brute force',
    async (objectives) => {
      const study = bench(objectives);
      const all = await everything(study);
      const report = await carriedOut(study);
      expect(names(report).sort()).toEqual(bruteFront(all, objectives.split(', ')).sort());
      expect(report.front.length).toBeGreaterThan(0);
      // Some pass and some fail: a front of all or nothing would show little.
      expect(new Set(all.map(({ outcome }) => passes(outcome))).size).toBe(2);
    },
  );

  it('says of each why it is there, what binds it, and leaves out what is beaten', async () => {
    const report = await carriedOut(bench('cost, mass'));
    expect(report.front.length).toBeGreaterThan(1);
    const [first] = report.front;
    expect(report.runs).toBeLessThan(15);
    expect(report.designs.some(({ standing, run }) => standing === 'beaten' && run === null)).toBe(true);
    expect(first!.run.binding).not.toBe('');
    // The cheapest that passes: what costs less was run, and fails.
    expect(first!.rivals).toMatchObject({
      limit: expect.stringMatching(/\w/),
      headroom_ratio: expect.any(Number),
    });
    expect(first!.rivals!.headroom_ratio).toBeLessThan(0);
    expect(frontRows(report)[0]!.at(-1)).toMatch(/^\d+; nearest .*%$/);
    expect(designsSentence(report)).toMatch(
      /^\d of 15 designs are beaten by none in cost and mass; least cost: tray = /,
    );
  });

  it('ends with a bill of parts: units, what differs from the model, figures with their sources', async () => {
    const report = await carriedOut(bench('cost'));
    const { bill, values } = report.front[0]!;
    expect(bill.lines.map(({ family, units }) => [family, units.length])).toEqual([
      ['shelves', 1],
      ['trays', 1],
      ['banks', 1],
    ]);
    const [shelf, tray] = bill.lines;
    expect(shelf!.figures.cost).toEqual({ value: 900, source: 'assumed: of this test' });
    expect(tray!.differs).toEqual([`power_limit = ${values['tray']}`]);
    expect(tray!.model).toBe('models/tray-20kw.yaml');
    const sum = bill.lines.reduce(
      (total, { figures, units }) => total + figures.cost!.value * units.length,
      0,
    );
    expect(bill.totals.cost).toBe(sum);
    expect(bill.totals.rack_units).toBe(null);
    expect(designsMarkdown(report)).toContain('## Bill of parts: tray = ');
  });

  it('takes the price nearest to the unit: a path before its kind', () => {
    const study = bench('cost', { figures: [figure('shelves', 'cost', 900), figure('trays', 'cost', 1)] });
    const priced = { ...study, changes: [...study.changes, ...changes('shelves.cost = 1900')] };
    const [shelf, tray] = planDesigns(priced, contextHere().read).designs[0]!.bill.lines;
    expect([shelf!.figures.cost!.value, tray!.figures.cost!.value]).toEqual([1900, trayCost(4)]);
  });

  it('names in its bill what stands over a model, whoever wrote it, but not how a unit is set', () => {
    const study = bench('cost');
    const { designs } = planDesigns(
      {
        ...study,
        changes: [...study.changes, ...changes('trays.esr = 3 mΩ', 'shelves.set_point_offset = 0.1 %')],
      },
      contextHere().read,
    );
    expect(designs[0]!.bill.lines.map(({ differs }) => differs)).toEqual([
      [],
      ['power_limit = 4 kW', 'esr = 3 mΩ'],
      ['capacitance = 20 mF'],
    ]);
  });

  it('tells a sum of figures that does not see what is varied', async () => {
    const study = bench('cost');
    const report = await carriedOut(
      bench('cost', {
        vary: [['trays.power_limit', '12 kW | 16 kW']],
        designs: {},
        changes: [...study.changes, ...changes('banks.capacitance = 20 mF')],
        figures: [figure('shelves', 'cost', 9), figure('trays', 'cost', 5), figure('banks', 'cost', 2)],
      }),
    );
    expect(report.blind).toEqual([{ objective: 'cost', paths: ['trays.power_limit'] }]);
    // Alike in the one objective: none beats the other.
    expect(names(report)).toEqual(['12 kW', '16 kW']);
  });

  it('samples each design for its yield, with its interval', async () => {
    const study = bench('cost');
    const report = await carriedOut(
      bench('cost, yield', {
        vary: [['tray', '12 kW | 20 kW']],
        designs: { tray: trays.filter(({ name }) => name === '12 kW' || name === '20 kW') },
        figures: [figure('shelves', 'cost', 9), figure('banks', 'cost', 2)],
        changes: [...study.changes, ...changes('banks.capacitance = 20 mF')],
        tolerances: [['trays.power_limit', 'uniform by 30 %']],
        words: new Map([
          ['objectives', 'cost, yield'],
          ['samples', '8'],
        ]),
      }),
    );
    for (const { objectives, yield_interval_ratio } of report.front) {
      const eighths = objectives.yield! * 8;
      expect(Math.abs(eighths - Math.round(eighths))).toBeLessThan(1e-12);
      expect(yield_interval_ratio![0]).toBeLessThanOrEqual(objectives.yield!);
    }
    expect(report.samples).toBe(8);
    // 20 kW less 30 % is enough; 12 kW less 30 % is not.
    expect(report.designs.at(-1)!.objectives.yield).toBe(1);
    expect(report.front[0]!.objectives.yield).toBeLessThan(1);
  });

  it('refuses figures that nobody states, models that lack them named with the key to write', async () => {
    const { read } = contextHere();
    const lacking = await messageOf(() => planDesigns(bench('rack_units'), read));
    expect(lacking).toContain('models/shelf-36kw.yaml  shelves.rack_units');
    expect(lacking).toContain('models/tray-20kw.yaml  trays.rack_units');
    expect(lacking).toContain('models/bank-80mf.yaml  banks.rack_units');
    expect(lacking).toContain('write rack_units: { value: 1250, source: published, citation: … }');
    expect(await messageOf(() => planDesigns(bench(''), read))).toContain('nothing to compare designs by');
    expect(await messageOf(() => planDesigns(bench('cost, mass, losses'), read))).toContain('3 objectives');
    expect(await messageOf(() => planDesigns(bench('price'), read))).toContain('price');
    expect(await messageOf(() => planDesigns(bench('losses', { vary: [], designs: {} }), read))).toContain(
      'nothing to vary',
    );
  });
});

it('what nobody could judge passes nowhere', async () => {
  const { read } = contextHere();
  const open: RunOutcome = { ...passed, verdict: 'inconclusive', loss_mean_W: 1 };
  const report = await designed(bench('losses'), { read, run: always(open) });
  expect(report.front).toEqual([]);
  expect(designsSentence(report)).toMatch(/^No design came to a verdict: 15 inconclusive/);
});
