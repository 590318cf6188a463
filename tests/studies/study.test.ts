/** What holds for every study that is split: its parts ask between them for what the whole asks for. */
import { describe, expect, it } from 'vitest';
import { gains } from '../../src/studies/gains/gains.ts';
import { planGains } from '../../src/studies/gains/plan.ts';
import { planShare } from '../../src/studies/share/plan.ts';
import { share } from '../../src/studies/share/share.ts';
import type { Planned, Study } from '../../src/studies/study.ts';
import { keyOf } from '../../src/studies/trials/key.ts';
import { contextHere } from './here.ts';

const { read } = contextHere();
const scenario = 'scenarios/single-step.yaml';

/** Sums of the trials that each of three parts asks for. */
async function askedInParts<Plan extends Planned, Report>(
  { parts }: Study<Plan, Report>,
  plan: Plan,
): Promise<readonly (readonly string[])[]> {
  return Promise.all(
    [0, 1, 2].map(async (part) => {
      const asked: string[] = [];
      const count = await parts!.carryOut(
        plan,
        async (trials) => {
          asked.push(...trials.map(keyOf));
          return [];
        },
        (k) => k % 3 === part,
      );
      expect(count).toBe(0);
      return asked;
    }),
  );
}

describe('parts', () => {
  it('of a gains map are its cells, each once, and the map goes on from them', async () => {
    const axes = {
      x: 'firmware.share.time_constant=50 ms to 200 ms in 3 log',
      y: 'shelves.control_delay=0 us to 60 us in 2',
    };
    const plan = planGains(
      {
        scenario,
        changes: [],
        ...axes,
        load_W: 200e3,
        accept: [],
        samples: 0,
        seed: 1,
        over: null,
        confirm: true,
      },
      read,
    );
    const asked = await askedInParts(gains, plan);
    expect(asked.map(({ length }) => length)).toEqual([2, 2, 2]);
    expect(new Set(asked.flat())).toEqual(new Set(plan.cells.map(keyOf)));
    expect(gains.parts!.held(plan)).toHaveLength(6);
    // Along the axis of the firmware, which leaves the plant alone.
    expect(plan.places.slice(0, 3)).toEqual([
      [0, 0],
      [1, 0],
      [2, 0],
    ]);
  });

  it('of the tests of the share loop are its cases, and nothing comes behind them', async () => {
    const plan = planShare({ scenario, changes: [], load_W: 200e3 }, read);
    const asked = await askedInParts(share, plan);
    expect(new Set(asked.flat()).size).toBe(plan.cases.length);
    expect(share.parts!.held(plan)).toBe(null);
  });

  it('of the share loop change the scenario by changes alone: every one of them can be read', () => {
    const { trials } = planShare({ scenario, changes: [], load_W: 200e3 }, read);
    for (const trial of trials) expect(() => read(trial)).not.toThrow();
    expect(trials.flatMap(({ changes }) => changes.map(({ path }) => path))).toContain(
      'shelves.S1.module_count',
    );
  });
});
