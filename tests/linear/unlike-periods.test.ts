/**
 * Tasks whose periods differ without being far apart, or do not fit into one another: a map spans several samplings then. What
 * `gains` and a run's own look find is what the full analysis has, which counts every turn.
 */
import { expect, it } from 'vitest';
import { readTextFile } from '../../src/disk/read-file.ts';
import { look } from '../../src/linear/look.ts';
import { type Mode, modesOf } from '../../src/linear/modes.ts';
import { restAt } from '../../src/linear/rest.ts';
import { linearise, type Sampled } from '../../src/linear/sampled.ts';
import { run } from '../../src/run.ts';
import { readScenario } from '../../src/scenario/read.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';
import { CellWorkshop } from '../../src/studies/gains/cell.ts';
import { modeWord } from '../../src/studies/response/judge.ts';
import { marginsAt } from '../../src/studies/response/margins-at.ts';
import { respond } from '../../src/studies/response/respond.ts';
import { messageOf } from '../studies/here.ts';

const small = 'tests/fixtures/small.yaml';
const bench = 'scenarios/bench-step.yaml';
const asked = { state_count: 0, shelf: null, nodes: [] as string[] };

function scenarioOf(path: string, changes: Readonly<Record<string, string>>): Scenario {
  const written = Object.entries(changes).map(([key, value]) => ({ path: key, value }));
  return readScenario(path, { files: readTextFile, changes: written }).scenario;
}

/** The cabinet with its share held. */
function smoothingAlone(scenario: Scenario): Sampled {
  const system = linearise(restAt(scenario, 12e3));
  return { ...system, tasks: system.tasks.filter(({ name }) => name !== 'share') };
}

type Rate = Pick<Mode, 'real_per_s' | 'frequency_Hz'>;

/** Distance of two modes over the size of the second. */
const apart = (one: Rate, other: Rate): number =>
  Math.hypot(one.real_per_s - other.real_per_s, 2 * Math.PI * (one.frequency_Hz - other.frequency_Hz)) /
  Math.hypot(other.real_per_s, 2 * Math.PI * other.frequency_Hz);

const near = { 'firmware.smoothing.filter_corner': '2 kHz', 'firmware.share.latency': '3 ms' };

it.each<readonly [what: string, path: string, changes: Readonly<Record<string, string>>]>([
  ['a voltage loop that does not fit into the smoothing', bench, { 'shelves.loop_period': '55 us' }],
  [
    'a smoothing that is a fifth as slow as the share',
    small,
    { 'firmware.smoothing.period': '2 ms', 'firmware.smoothing.latency': '8 ms' },
  ],
  [
    'a share that does not fit',
    small,
    {
      ...near,
      'firmware.smoothing.period': '0.7 ms',
      'firmware.share.period': '3 ms',
      'firmware.smoothing.latency': '13.3 ms',
    },
  ],
])('%s: the least damped mode is that of the full analysis', (_what, path, changes) => {
  const scenario = scenarioOf(path, changes);
  const { slow } = marginsAt(scenario, { load_W: 12e3, ...asked });
  expect(slow!.damping_ratio).toBeLessThan(0.3);
  const cell = new CellWorkshop().cell(scenario, 12e3);
  expect(cell.damping_ratio).toBeCloseTo(slow!.damping_ratio, 4);
  expect(cell.damping_Hz! / slow!.frequency_Hz).toBeCloseTo(1, 4);
});

it('a run looks at the same mode', () => {
  const scenario = scenarioOf(small, {
    ...near,
    'firmware.smoothing.period': '0.7 ms',
    'firmware.share.period': '3 ms',
    'firmware.smoothing.latency': '13.3 ms',
  });
  const { slow } = marginsAt(scenario, { load_W: 12e3, ...asked });
  const { worst } = look(scenario, run(scenario, null).result);
  expect(worst!.mode!.damping_ratio).toBeCloseTo(slow!.damping_ratio, 3);
});

it('a mode that alternates at every sample of the smoothing swings, though the slower share sees it come back with its own sign', () => {
  const scenario = scenarioOf(small, { 'firmware.smoothing.latency': '2.5 ms' });
  const { fast } = marginsAt(scenario, { load_W: 12e3, ...asked });
  const cell = new CellWorkshop().cell(scenario, 12e3);
  const { modes } = respond(scenario, { load_W: 12e3, ...asked, points: 3 });
  expect(modes.find(({ frequency_Hz }) => Math.abs(frequency_Hz - 1000) < 1e-6)!.alternates).toBe(true);
  expect(fast!.frequency_Hz).toBeCloseTo(1000, 6);
  expect(fast!.damping_ratio).toBeLessThan(0.1);
  expect(fast!.damping_ratio).toBeCloseTo(cell.damping_fast_ratio!, 4);
});

it('what dies within the period of the share is that of the cabinet with the smoothing closed', () => {
  const scenario = scenarioOf(small, {});
  const { modes } = respond(scenario, { load_W: 12e3, ...asked, points: 3 });
  const fast = modesOf(smoothingAlone(scenario));
  const quick = fast.filter(({ real_per_s, frequency_Hz }) => real_per_s < -1300 && frequency_Hz > 0);
  expect(quick.length).toBeGreaterThan(4);
  for (const one of quick) expect(Math.min(...modes.map((mode) => apart(mode, one)))).toBeLessThan(1e-3);
});

it('no margin is told of a loop that other periods do not fit into, and a remark says so', () => {
  const { loops, remarks } = respond(scenarioOf(bench, { 'shelves.loop_period': '55 us' }), {
    load_W: 12e3,
    ...asked,
    points: 3,
  });
  expect(loops.map(({ name }) => name)).not.toContain('smoothing loop');
  expect(remarks.join('\n')).toContain(
    'No margin of the smoothing loop is told: voltage loop acts every 55 µs',
  );
});

it('periods without a common multiple are refused with a change after which they fit', async () => {
  const with50 = { 'shelves.loop_period': '50.25 us' };
  const said = await messageOf(() =>
    respond(scenarioOf(bench, with50), { load_W: 12e3, ...asked, points: 3 }),
  );
  const [, path, value] = /for example (\S+) (.+)$/m.exec(said)!;
  expect([path, value]).toEqual(['shelves.loop_period', '50 µs']);
  expect(
    respond(scenarioOf(bench, { [path!]: value! }), { load_W: 12e3, ...asked, points: 3 }).modes.length,
  ).toBeGreaterThan(4);
});

it.each([
  ['a mode at 10 kHz but for the last digits is judged', '50 us', '500 us', '10 ms'],
  ['one beyond it is asked for what every run asks', '49.5 us', '495 us', '9.9 ms'],
])('%s', (_what, loop, smoothing, share) => {
  const edge = scenarioOf(bench, {
    'shelves.loop_period': loop,
    'firmware.smoothing.period': smoothing,
    'firmware.share.period': share,
    'shelves.proportional_gain': '650 A/V',
    'shelves.integral_gain': '7e5 A/(V s)',
  });
  const { modes } = respond(edge, { load_W: 12e3, ...asked, points: 3 });
  const weak = modes.filter(
    ({ frequency_Hz, damping_ratio }) => frequency_Hz > 9.9e3 && damping_ratio < 0.02,
  );
  expect(weak.map((mode) => modeWord({ ...mode, time_constant_s: 1 }))).toEqual(['weak']);
  const { damping_fast_ratio, damping_fast_Hz } = new CellWorkshop().cell(edge, 12e3);
  expect(damping_fast_ratio).toBeCloseTo(weak[0]!.damping_ratio, 4);
  expect(damping_fast_Hz! / weak[0]!.frequency_Hz).toBeCloseTo(1, 6);
});
