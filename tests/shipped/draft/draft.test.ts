/** Cabinets of many sizes, drafted: they read clean, hold what was asked for, and their numbers follow from the shipped ones. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { BadInput } from '../../../src/base/problem.ts';
import { type ReadScenario, readScenario } from '../../../src/scenario/read.ts';
import { type Answers, draftFrom } from '../../../src/shipped/draft/answers.ts';
import { draftedFiles } from '../../../src/shipped/draft/files.ts';
import { planSize } from '../../../src/studies/size/plan.ts';
import { readStudy } from '../../../src/studies/written/read-study.ts';

const models = new URL('../../../models/', import.meta.url).pathname;
const shipped = (name: string): string => readFileSync(models + name, 'utf8');

function drafted(answers: Answers) {
  const { files } = draftedFiles('made', answers, shipped, '../dist/schemas');
  const file = (path: string) => ({ text: files[path] ?? null, sha256: path });
  const read = (scenario: string, changes: readonly { path: string; value: string }[] = []): ReadScenario =>
    readScenario(scenario, { files: file, changes });
  return { files, file, read };
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
    ['another voltage', { sleds: '16', voltage: '54 V' }],
    ['sleds of two kinds, an odd number', { sleds: '3 of 15 kW, 2 of 10 kW', banks: '3 of 40 mF' }],
    ['a large one', { sleds: '40 of 10 kW' }],
  ])('reads without a problem or a warning: %s', (_, answers) => {
    const { files, file, read } = drafted(answers);
    for (const scenario of ['pulses.yaml', 'start.yaml']) expect(read(scenario).warnings).toEqual([]);
    if ('trays.yaml' in files) expect(readStudy('trays.yaml', 'size', file).scenario).toBe('pulses.yaml');
  });

  it('with trays of two kinds says what their smoothing comes to, and nothing else', () => {
    const { read } = drafted({ sleds: '16', trays: '5 of 20 kW, 3 of 30 kW' });
    expect(read('pulses.yaml').warnings).toMatchObject([
      {
        found: 'trays of 20 kW and 30 kW beside each other, 190 kW in all',
        mend: expect.stringContaining('8 × 20 kW = 160 kW'),
      },
    ]);
  });

  it('comes with a study of its trays that can be planned', () => {
    const { file, read } = drafted({ sleds: '16', trays: '5 of 20 kW, 3 of 30 kW' });
    const known = new Map<string, ReadScenario>();
    const plan = planSize(readStudy('trays.yaml', 'size', file), ({ scenario, changes }) => {
      const key = JSON.stringify([scenario, changes]);
      const one = known.get(key) ?? read(scenario, [...changes]);
      known.set(key, one);
      return one;
    });
    expect(plan.situations).toHaveLength(8);
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
      (voltage) => drafted({ sleds: '16', voltage }).read('start.yaml').scenario,
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
      refused({ sleds: '0', trays: '3 of 5 F, x', sections: '3', voltage: '9 V' }),
    ).toMatchInlineSnapshot(`
      "--sections
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
      --voltage
        found     9 V
        expected  bus voltage: from 46 V to 56 V
        mend      write it like 50 V
      5 problems. Nothing was run."
    `);
    expect(refused({ trays: '3' })).toMatch(/^--sleds\n {2}found {5}no sleds/);
    expect(refused({ sleds: '16', shelves: '1' })).toMatch(/1 shelves for 2 sections/);
  });
});
