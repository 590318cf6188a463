import { describe, expect, it } from 'vitest';
import { BadInput } from '../../../src/base/problem.ts';
import { readQuantity } from '../../../src/base/quantity.ts';
import { planSpread } from '../../../src/studies/spread/plan.ts';
import { changes, contextHere, studyOf } from '../here.ts';

const { read } = contextHere();

function planned(path: string, text: string, samples = 40, more: readonly string[] = []) {
  return planSpread(
    studyOf('spread', 'single-step', {
      changes: changes(...more),
      tolerances: [[path, text]],
      words: { samples: String(samples) },
    }),
    read,
  );
}

/** What a path is given in each sample. */
function drawn(plan: ReturnType<typeof planned>, path: string): number[] {
  return plan.trials.map(({ changes: made }) => {
    const reading = readQuantity(made.findLast((one) => one.path === path)!.value, 'ratio');
    if (!reading.ok) throw new Error(reading.found);
    return reading.value;
  });
}

function refusal(work: () => unknown): string {
  try {
    work();
  } catch (error) {
    if (error instanceof BadInput) return error.message;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('a tolerance that is added', () => {
  it('moves an error that is 0 by itself, evenly between its ends, for each unit anew', () => {
    const plan = planned('shelves.sense_gain', 'uniform plus 1 %');
    expect(plan.variables).toHaveLength(8);
    const values = drawn(plan, 'shelves.S3.sense_gain').sort((a, b) => a - b);
    // One sample of a Latin hypercube in each fortieth of −1 to 1 %; six digits are kept.
    for (const [k, value] of values.entries()) {
      expect(value).toBeGreaterThanOrEqual(-0.01 + (0.02 * k) / 40 - 1e-8);
      expect(value).toBeLessThanOrEqual(-0.01 + (0.02 * (k + 1)) / 40 + 1e-8);
    }
    expect(drawn(plan, 'shelves.S4.sense_gain')).not.toEqual(drawn(plan, 'shelves.S3.sense_gain'));
  });

  it('is added to what each unit has: S1 is set 0.2 % high, S4 0.22 % low', () => {
    const plan = planned('shelves.set_point_offset', 'uniform plus -0.1 % to 0.3 %, common');
    expect(plan.variables).toHaveLength(1);
    const [first, fourth] = ['S1', 'S4'].map((id) => drawn(plan, `shelves.${id}.set_point_offset`));
    for (const [k, value] of first!.entries()) {
      expect(value - fourth![k]!).toBeCloseTo(0.0042, 7);
      expect(value).toBeGreaterThanOrEqual(0.001 - 1e-8);
      expect(value).toBeLessThanOrEqual(0.005 + 1e-8);
    }
  });

  it('is told from a part: a part of 0 would move nothing, and is refused with what to write', () => {
    expect(refusal(() => planned('shelves.sense_gain', 'uniform by 1 %'))).toMatchInlineSnapshot(`
      "shelves.sense_gain
        found     uniform by 1 % of shelves.S1.sense_gain, which is 0
        expected  a tolerance that moves the value
        mend      write uniform plus 1 % in the unit of the value, or uniform from … to …
      1 problem. Nothing was run."
    `);
    expect(refusal(() => planned('shelves.sense_gain', 'lognormal by 10 %'))).toContain(
      'say by how much it may be off, for example uniform plus …, or uniform from … to …',
    );
  });
});

describe('a tolerance in the wrong unit', () => {
  it('is told in which unit it is written', () => {
    expect(refusal(() => planned('trays.esr', 'uniform plus 5 %'))).toContain(
      'mend      plus takes the unit of the value: write it like 0.694 mΩ',
    );
    expect(refusal(() => planned('trays.esr', 'uniform by 1 mΩ'))).toContain(
      'mend      by takes a share: write it like ',
    );
  });
});

describe('a tolerance that draws what cannot be', () => {
  it('is refused before anything runs, with the sample and how many there are', () => {
    expect(refusal(() => planned('trays.esr', 'normal by 60 %, common', 200))).toMatchInlineSnapshot(`
      "trays.esr
        found     -1.33993 mΩ at trays.T1.esr, drawn for sample 5 of 200 (100 such values in all)
        expected  a resistance above 0
        mend      usually 1 mΩ to 10 mΩ; draw it narrower, uniform between ends, or lognormal, which never reaches 0
      1 problem. Nothing was run."
    `);
  });

  it('is refused once for each tolerance', () => {
    const study = studyOf('spread', 'single-step', {
      tolerances: [
        ['shelves.set_point_offset', 'uniform plus 30 %'],
        ['trays.esr', 'uniform plus 5 mΩ'],
      ],
      words: { samples: '40' },
    });
    expect(refusal(() => planSpread(study, read)).match(/^ {2}found/gm)).toHaveLength(2);
  });
});

describe('--models, the ranges that models state', () => {
  it('draws evenly between a low and a high, also about 0', () => {
    const study = studyOf('spread', 'single-step', {
      // The ninth shelf has no set-point error of its own: 0, and as much either way as its model says.
      changes: changes('shelves.count = 9'),
      words: { models: 'yes', samples: '40' },
    });
    const plan = planSpread(study, read);
    const esr = plan.variables.find(({ path }) => path === 'trays.T1.esr')!;
    expect([esr.tolerance.mode, esr.tolerance.low, esr.tolerance.high]).toEqual(['from', 0.00168, 0.00312]);
    const offsets = plan.variables.filter(({ path }) => path.endsWith('set_point_offset'));
    for (const { tolerance } of offsets) expect([tolerance.low, tolerance.high]).toEqual([-0.0025, 0.0025]);
    expect(offsets.length).toBeGreaterThan(0);
  });
});

describe('a triangular tolerance', () => {
  // Distribution function of the triangular law (JCGM 101, 6.4.5; from memory): half of 8 to 15 about 10 lies below 10.817.
  it('is likeliest at the value, between its ends', () => {
    const hertz = planned('shelves.power_loop', 'triangular from 8 Hz to 15 Hz, common', 200);
    const values = hertz.trials
      .map(({ changes: made }) => {
        const reading = readQuantity(made.at(-1)!.value, 'frequency');
        return reading.ok ? reading.value : Number.NaN;
      })
      .sort((a, b) => a - b);
    expect(values[0]).toBeGreaterThan(8);
    expect(values.at(-1)).toBeLessThan(15);
    expect((values[99]! + values[100]!) / 2).toBeCloseTo(15 - Math.sqrt(0.5 * 7 * 5), 1);
    expect(values.filter((value) => value < 10)).toHaveLength(57);
  });
});
