/** Cabinets of many sizes, drafted: they read clean, hold what was asked for, and their numbers follow from the shipped ones. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { BadInput } from '../../../src/base/problem.ts';
import { type ReadScenario, readScenario } from '../../../src/scenario/read.ts';
import { type Answers, draftFrom } from '../../../src/shipped/draft/answers.ts';
import { draftedFiles } from '../../../src/shipped/draft/files.ts';
import { planDesigns } from '../../../src/studies/designs/plan.ts';
import { leversAt } from '../../../src/studies/size/fitting-levers.ts';
import { planSize } from '../../../src/studies/size/plan.ts';
import type { ReadChanged } from '../../../src/studies/trials/trial.ts';
import { readStudy } from '../../../src/studies/written/read-study.ts';

const models = new URL('../../../models/', import.meta.url).pathname;
const shipped = (name: string): string => readFileSync(models + name, 'utf8');

function drafted(answers: Answers) {
  const { files } = draftedFiles('made', answers, shipped, '../dist/schemas');
  const file = (path: string) => ({ text: files[path] ?? null, sha256: path });
  const trees = new Map();
  const read = (scenario: string, changes: readonly { path: string; value: string }[] = []): ReadScenario =>
    readScenario(scenario, { files: file, changes, trees });
  const known = new Map<string, ReadScenario>();
  /** The same, each asked for once. */
  const readChanged: ReadChanged = ({ scenario, changes }) => {
    const key = JSON.stringify([scenario, changes]);
    const one = known.get(key) ?? read(scenario, changes);
    known.set(key, one);
    return one;
  };
  return { files, file, read, readChanged };
}

function refused(answers: Answers): string {
  try {
    draftFrom(answers);
  } catch (error) {
    if (error instanceof BadInput) return error.message;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('a drafted cabinet', () => {
  it.each<[string, Answers]>([
    ['14 sleds of 18 kW on 480 V and 60 Hz', { sleds: '14 of 18 kW', feeder: '480 V', frequency: '60 Hz' }],
    ['24 sleds with one section', { sleds: '24', sections: '1' }],
    [
      'the least there is',
      { sleds: '1', shelves: '1', trays: 'none', banks: '0', batteries: 'none', sections: '1' },
    ],
    ['another voltage', { sleds: '16', nominal: '54 V' }],
    ['a bus of 400 V', { sleds: '8', nominal: '400 V' }],
    ['a bus of 800 V, of other sizes', { sleds: '4 of 20 kW', trays: '4 of 25 kW', nominal: '800 V' }],
    ['sleds of two kinds, an odd number', { sleds: '3 of 15 kW, 2 of 10 kW', banks: '3 of 40 mF' }],
    ['a large one', { sleds: '40 of 10 kW' }],
  ])('reads without a problem or a warning: %s', (_, answers) => {
    const { files, file, read } = drafted(answers);
    for (const scenario of ['pulses.yaml', 'start.yaml']) expect(read(scenario).warnings).toEqual([]);
    if ('trays.yaml' in files) expect(readStudy('trays.yaml', 'size', file).scenario).toBe('pulses.yaml');
  });

  it('with trays of two kinds says what each counts as, and nothing else', () => {
    const { read } = drafted({ sleds: '16', trays: '5 of 20 kW, 3 of 30 kW' });
    expect(read('pulses.yaml').warnings).toMatchObject([
      {
        found: 'trays of 20 kW and 30 kW beside each other',
        mend: expect.stringContaining('20 kW for smoothing'),
      },
    ]);
  });

  const mixed: Answers = { sleds: '4', trays: '2 of 20 kW, 1 of 30 kW', sections: '2' };

  it('comes with a study of its trays that loses one of each size', () => {
    const { file, readChanged } = drafted(mixed);
    const plan = planSize(readStudy('trays.yaml', 'size', file), readChanged);
    const lost = plan.study.redundancy.map(({ name, changes }) => [name, changes[0]?.path]);
    expect(lost).toEqual([
      ['whole', undefined],
      ['one tray of 20 kW out', 'trays.T1.fitted'],
      ['one tray of 30 kW out', 'trays.T3.fitted'],
    ]);
    expect(plan.situations).toHaveLength(12);
  });

  it.each<[string, Answers, readonly string[]]>([
    ['trays of two sizes', mixed, ['shelves.S1.fitted', 'trays.T3.fitted', 'banks.K1.fitted']],
    ['shelves alone', { sleds: '1', shelves: '1', trays: 'none', banks: '0', sections: '1' }, []],
  ])('comes with a study of designs that can be planned: %s', (_, answers, lost) => {
    const { file, readChanged } = drafted(answers);
    const { study, designs } = planDesigns(readStudy('designs.yaml', 'designs', file), readChanged);
    expect(designs.length).toBeGreaterThan(1);
    expect(study.redundancy.flatMap(({ changes }) => changes.map(({ path }) => path))).toEqual(lost);
  });

  it('fits size after size as they were asked for, and says so', () => {
    const { files, read } = drafted(mixed);
    const models = (count: number): number[] =>
      read('start.yaml', [{ path: 'trays.count', value: String(count) }]).scenario.trays.map(
        ({ values }) => values.power_limit_W / 1e3,
      );
    expect(models(2)).toEqual([20, 20]);
    expect(models(3)).toEqual([20, 20, 30]);
    expect(models(4).sort()).toEqual([20, 20, 20, 30]);
    expect(files['cabinet.yaml']).toContain(
      '# trays.count takes them from the front of this list: 2 of 20 kW, then 1 of 30 kW, then more of 20 kW.',
    );
  });

  it('pulls the usual levers at each kind of tray by itself', () => {
    const { file, readChanged } = drafted(mixed);
    const plan = planSize(readStudy('trays.yaml', 'size', file), readChanged);
    const place = plan.last.values.indexOf('3');
    const power = leversAt(plan.levers, { row: 0, place }).find(({ name }) => name.startsWith('more power'))!;
    const { scenario } = readChanged({
      scenario: 'start.yaml',
      changes: [...plan.rows[0]!.changes[place]!, ...power.changes],
    });
    expect(scenario.trays.map(({ values }) => values.power_limit_W / 1e3)).toEqual([22, 22, 33]);
    expect(planSize(plan.study, readChanged, { levers: false }).levers).toEqual([]);
  });

  it('warns of a lever of its own that makes one kind of two', () => {
    const { file, readChanged } = drafted(mixed);
    const study = readStudy('trays.yaml', 'size', file);
    const with_ = (value: string) =>
      planSize(
        { ...study, levers: [{ name: 'stronger', changes: [{ path: 'trays.power_limit', value }] }] },
        readChanged,
      ).warnings.map(({ found }) => found);
    expect(with_('25 kW')).toEqual(['25 kW in place of 20 kW or 30 kW']);
    expect(with_('× 1.25')).toEqual([]);
  });

  it('ramps its sources with its size, and runs a start until slow ripple is judged', () => {
    const { scenario } = drafted({ sleds: '8 of 15 kW' }).read('start.yaml');
    expect(scenario.firmware.smoothing.source_ramp_W_per_s).toBe(40e3);
    // 1 s before the step, 10 s clear of it, 20 s for the slowest band.
    expect(scenario.duration_s).toBeGreaterThanOrEqual(31);
  });

  it('is that of the reference where the same is asked for', () => {
    const { scenario } = drafted({ sleds: '16', trays: '10' }).read('pulses.yaml');
    const reference = readScenario('scenarios/pulse-train.yaml', {
      files: (path) => ({ text: readFileSync(`${models}../${path}`, 'utf8'), sha256: '' }),
    }).scenario;
    expect(scenario.rated_W).toBe(reference.rated_W);
    expect(scenario.feeders.map(({ values }) => values)).toEqual(
      reference.feeders.map(({ values }) => values),
    );
    expect(scenario.trays.map(({ values }) => values)).toEqual(reference.trays.map(({ values }) => values));
    expect(scenario.sleds.map(({ values }) => values)).toEqual(reference.sleds.map(({ values }) => values));
    expect(scenario.firmware).toEqual(reference.firmware);
    const counts = (of: typeof scenario) => [of.shelves, of.banks, of.batteries].map(({ length }) => length);
    expect(counts(scenario)).toEqual(counts(reference));
  });

  it('has a breaker for the most shelves that one feeder has', () => {
    // 60 kW by two of three shelves: 61.4 A at 0.95 and 0.99, of which 80 % of 80 A carry.
    const { feeders, shelves } = drafted({ sleds: '4' }).read('pulses.yaml').scenario;
    expect(shelves.map(({ feeder }) => feeder)).toEqual(['F1', 'F1', 'F2']);
    expect(feeders.map(({ values }) => values.breaker_current_A)).toEqual([80, 80]);
  });

  it('of 400 V stands on models of 400 V, and on those that they are like', () => {
    const { files, read } = drafted({ sleds: '8', trays: '4 of 25 kW', nominal: '400 V' });
    const { nominal_V, shelves, trays } = read('pulses.yaml').scenario;
    expect([nominal_V, shelves[0]!.values.set_point_V]).toEqual([400, 402]);
    // What the model of 400 V does not state goes by size too: 25/20 of the tray of 50 V.
    expect(trays[0]!.values.power_limit_W).toBe(25e3);
    expect(Object.keys(files)).toEqual(
      expect.arrayContaining(['models/tray-20kw-400v.yaml', 'models/tray-20kw.yaml']),
    );
  });

  it('has units by their size: two thirds of the shelf are the shipped shelf of 24 kW', () => {
    const { scenario } = drafted({ sleds: '16', shelves: '12 of 24 kW' }).read('pulses.yaml');
    const small = readScenario('scenarios/mixed-shelves.yaml', {
      files: (path) => ({ text: readFileSync(`${models}../${path}`, 'utf8'), sha256: '' }),
    }).scenario.shelves[3]!.values;
    const { start_delay_s: _, set_point_offset_ratio: __, ...values } = scenario.shelves[3]!.values;
    for (const [key, value] of Object.entries(values)) {
      const shippedValue = small[key as keyof typeof small];
      // What is not limited stands at infinity in both; what goes by size is rounded to three digits in the shipped one.
      if (value === shippedValue) continue;
      expect([key, value / shippedValue]).toEqual([key, expect.closeTo(1, 2)]);
    }
  });

  it('keeps powers at another voltage, and its set points as shares of nominal', () => {
    const [at50, at54] = ['50 V', '54 V'].map(
      (nominal) => drafted({ sleds: '16', nominal }).read('start.yaml').scenario,
    );
    const set = ({ shelves, nominal_V }: NonNullable<typeof at50>) =>
      shelves[0]!.values.set_point_V / nominal_V;
    expect(set(at54!)).toBeCloseTo(set(at50!), 4);
    const drop = ({ shelves, nominal_V }: NonNullable<typeof at50>) =>
      (shelves[0]!.values.droop_ohm * (36e3 / nominal_V)) / nominal_V;
    expect(drop(at54!)).toBeCloseTo(drop(at50!), 5);
  });

  it('is refused with every wrong answer at once, by the options that gave them', () => {
    expect(
      refused({ sleds: '0', trays: '3 of 5 F, x', sections: '3', nominal: '9 V' }),
    ).toMatchInlineSnapshot(`
      "--nominal
        found     9 V
        expected  nominal voltage of the bus: 46 V to 56 V, 400 V or 800 V
        mend      write it like 400 V; for another one change nominal and models in the files of the nearest
      --sections
        found     3
        expected  sections of the cabinet bar, 1 or 2: from 1 to 2
        mend      write it like 2
      --sleds
        found     0 sleds
        expected  from 1 to 200
        mend      write it like 16 of 15 kW
      --trays
        found     5 F, which is a capacitance
        expected  supercapacitor trays, of one kind or more, like 36 kW
        mend      write it like 6 of 20 kW, 2 of 10 kW
      --trays
        found     x
        expected  supercapacitor trays, of one kind or more
        mend      write it like 6 of 20 kW, 2 of 10 kW
      5 problems. Nothing was run."
    `);
    expect(refused({ sleds: '1 of 800 W' })).toContain(
      'from 1.875 kW to 120 kW, an eighth to eight times the 15 kW of the shipped model\n',
    );
    expect(refused({ trays: '3' })).toMatch(/^--sleds\n {2}found {5}no sleds/);
    expect(refused({ sleds: '16', shelves: '1' })).toMatch(/1 shelf for 2 sections/);
  });
});
