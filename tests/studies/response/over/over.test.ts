/** The search for the worst margins: what it finds is the worst of what it asked, and each point is repeated by its command. */
import { describe, expect, it } from 'vitest';
import { Outcomes } from '../../../../src/studies/bench/outcomes.ts';
import { responseEnd } from '../../../../src/studies/response/judge.ts';
import { type MarginsAt, unsettled } from '../../../../src/studies/response/margins-at.ts';
import { foundOf } from '../../../../src/studies/response/over/found.ts';
import { overMarkdown } from '../../../../src/studies/response/over/over-paper.ts';
import { searchWorst } from '../../../../src/studies/response/over/search.ts';
import { planResponse } from '../../../../src/studies/response/plan.ts';
import { layPoints } from '../../../../src/studies/response/points.ts';
import { response } from '../../../../src/studies/response/response.ts';
import type { RunTrials, Trial } from '../../../../src/studies/trials/trial.ts';
import { changes, contextHere } from '../../here.ts';
import { marginsOf, scenario } from './here.ts';

const here = contextHere();
const planned = (
  samples: number,
  { loads = '3 kW | 12 kW', state = [], set = [] }: { loads?: string; state?: string[]; set?: string[] } = {},
) =>
  planResponse(
    {
      scenario,
      changes: changes(...set),
      load_W: 12e3,
      state,
      over: { loads, samples, seed: 1 },
      nodes: [],
      shelf: null,
      points: 10,
      measured: null,
      curve: null,
      inject: null,
    },
    here.read,
  );

/** Words of a command as a shell takes them apart. */
function wordsOf(command: string): string[] {
  return [...command.matchAll(/'([^']*)'|(\S+)/g)].map(([, inner, plain]) => inner ?? plain ?? '');
}

/** What a command's options ask for. */
function askedBy(command: string): Parameters<typeof planResponse>[0] {
  const words = wordsOf(command);
  const all = (flag: string): string[] => words.flatMap((word, k) => (word === flag ? [words[k + 1]!] : []));
  return {
    scenario: words[2]!,
    changes: all('--set').map((change) => {
      const cut = change.indexOf('=');
      return { path: change.slice(0, cut), value: change.slice(cut + 1) };
    }),
    load_W: Number.parseFloat(all('--at')[0]!) * 1e3,
    state: all('--state'),
    over: null,
    nodes: [],
    shelf: null,
    points: 10,
    measured: null,
    curve: null,
    inject: null,
  };
}

describe('without tolerances, on a bench', () => {
  // Parts that are set are left as they were set: no other case of them is asked.
  const set = ['ageing.trays = end-of-life', 'temperature.trays = hot'];
  const plan = planned(0, { loads: '12 kW', state: ['ac-loss all'], set });

  it('finds the worst of each margin, named, and the command gives the same numbers by itself', async () => {
    const report = await response.carryOut(plan, here.run);
    const over = report.over!;
    const worst = over.worst.find(
      ({ of, what }) => of === 'battery voltage loops' && what === 'gain_margin_dB',
    )!;
    const point = over.points.find(({ name }) => name === worst.point)!;
    expect(point.state).toEqual(['ac-loss all']);
    const again = await response.carryOut(planResponse(askedBy(point.command), here.read), here.run);
    expect(again.loops.find(({ name }) => name === 'battery voltage loops')?.gain_margin_dB).toBe(
      worst.value,
    );
    expect(over.asked.every(({ reason }) => reason === null)).toBe(true);
    expect(over.bands.map(({ curve }) => curve)).toEqual(report.curves.map(({ name }) => name));
    expect(responseEnd(report)).toBe('passed');
    expect(layPoints('a.csv', [], report.curves, null)).toEqual([]);
    expect(overMarkdown(report.title, over)).toContain(point.command);
  });
});

describe('with tolerances, on margins that are made up', () => {
  const nominal = marginsOf([]);
  /** A gain margin that one kind of tolerance takes and another gives; unstable at one corner of both, unsettled with no tray. */
  const made = ({ changes: asked, load_W, state_count }: Trial<'margins'>): MarginsAt => {
    const value = (path: string, usual: number): number =>
      Number.parseFloat(
        asked.findLast((one) => one.path === path)?.value.replace('1.3 m', '1300 µ') ?? `${usual}`,
      );
    if (asked.some((one) => one.value === 'tray-out T1 at 0 s')) return unsettled('no point');
    const [shelf, bank] = [value('shelves.S1.output_esr', 1000), value('banks.K1.esr', 400)];
    const gain = 9 - load_W / 12e3 - (state_count ?? 0) + (shelf - 1000) / 200 - (bank - 400) / 200;
    const isEdge = state_count === 2 && load_W === 12e3 && shelf === 700 && bank === 520;
    const mode = { damping_ratio: 0.2, frequency_Hz: 1e3, growth_per_s: isEdge ? 5 : -5, owner: 'S1' };
    return {
      ...nominal,
      loops: nominal.loops.map((loop) => ({ ...loop, gain_margin_dB: gain })),
      growing: isEdge ? mode : null,
    };
  };
  const run: RunTrials = async (trials) =>
    trials.map((trial) => {
      const outcomes = new Outcomes();
      outcomes.set('', { kind: 'margins', outcome: made(trial as Trial<'margins'>) });
      return outcomes.get(trial.kind, '')!;
    });

  it('goes on from the worst load and state, to the corner of the kinds that matter there', async () => {
    const plan = planned(2).over!;
    const { found } = foundOf(plan, plan.base, await searchWorst(plan, run));
    const worst = found.worst.find(({ of, what }) => of === 'voltage loops' && what === 'gain_margin_dB')!;
    expect(worst).toMatchObject({ nominal: 8, value: null, unstable: true });
    const point = found.points.find(({ name }) => name === worst.point)!;
    expect(point.words).toMatch(/^12 kW, ac-loss all, battery-fail B1; .*corner: .*shelves\.output_esr low/);
    expect(point.drawn).toMatch(/banks\.esr high/);
    expect(found.asked.filter(({ reason }) => reason !== null).map(({ state }) => state)).toEqual([
      'tray-out T1',
      'tray-out T1',
    ]);
    expect(overMarkdown('it', found as never)).toMatch(/UNSTABLE at \d+ of/);
  });
});
