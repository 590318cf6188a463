/** Voltage loop and hand-over as modules of the user's own, and the numbers that any of them lets be seen. */
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { BadInput } from '../../../src/base/problem.ts';
import { readShortText } from '../../../src/disk/read-file.ts';
import { restAt } from '../../../src/linear/rest.ts';
import { linearise } from '../../../src/linear/sampled.ts';
import { type Run, run } from '../../../src/run.ts';
import { readScenario } from '../../../src/scenario/read.ts';
import type { Scenario } from '../../../src/scenario/scenario.ts';

const root = new URL('../../../', import.meta.url).pathname;
const shipped = (name: string): string => readShortText(`${root}models/controllers/${name}.ts`).text;

type Changes = Readonly<Record<string, string>>;

/** A shipped scenario with changes, and with lines of its own below. */
function scenarioOf(name: string, changes: Changes, below = '', text = ''): Scenario {
  const own = `${root}scenarios/own.ts`;
  const mine = `${root}scenarios/mine.yaml`;
  const files = (path: string): { text: string; sha256: string } => {
    if (path !== own && path !== mine) return readShortText(path);
    const given = path === own ? text : `${readShortText(`${root}scenarios/${name}.yaml`).text}\n${below}`;
    return { text: given, sha256: createHash('sha256').update(given).digest('hex') };
  };
  const list = Object.entries(changes).map(([path, value]) => ({ path, value }));
  return readScenario(mine, { files, changes: list }).scenario;
}
const replaced = (task: string, shows = ''): string =>
  `controllers:\n  - { replaces: ${task}, file: own.ts${shows === '' ? '' : `, shows: [${shows}]`} }\n`;
const refusedWith = (work: () => unknown): string => {
  try {
    work();
  } catch (error) {
    if (error instanceof BadInput) return error.message;
    throw error;
  }
  return '';
};

describe('the built-in sampled voltage loop as a module', () => {
  const changes = {
    'shelves.loop_period': '50 us',
    'shelves.loop_command_quantum': '0.5 A',
    'load.at': '5 ms',
    duration: '25 ms',
  };
  const text = shipped('voltage-as-built');
  const [as, own] = [
    scenarioOf('bench-step', changes),
    scenarioOf('bench-step', changes, replaced('voltage-loop', 'S1 error_V'), text),
  ];
  const [first, second] = [run(as, null), run(own, null)] as [Run, Run];

  it('ends in the same bits as the built-in law', () => {
    const id = 'S1.current_A';
    expect(curve(second.result, id)).toEqual(curve(first.result, id));
    expect(second.result.audit).toEqual(first.result.audit);
    expect(second.report.metrics).toEqual(first.report.metrics);
  });

  it('lets its error be seen as a channel of the run', () => {
    const shown = curve(second.result, 'voltage-loop.S1 error_V');
    expect(Math.max(...shown)).toBeGreaterThan(0.1);
    expect(first.result.recording.channels.some(({ kind }) => kind === 'own')).toBe(false);
  });

  it('has the slopes of the built-in law, and one state more for its modules', () => {
    const [a, b] = [as, own].map((scenario) => linearise(restAt(scenario, 5e3)));
    expect(b!.labels.filter((label) => label.includes('modules alive'))).toHaveLength(1);
    expect(b!.labels.length).toBe(a!.labels.length + 1);
  });

  it('is held within what a shelf may give, and refused where no loop is sampled', () => {
    const most = 'export const controller = { run: ({ voltage_V }) => voltage_V.map(() => 1e6) };';
    const { result } = run(scenarioOf('bench-step', changes, replaced('voltage-loop'), most), null);
    expect(Math.max(...curve(result, 'S1.current_A'))).toBeLessThan(2000);
    expect(
      refusedWith(() => scenarioOf('bench-step', { duration: '20 ms' }, replaced('voltage-loop'), text)),
    ).toMatch(/no shelf whose voltage loop is sampled/);
  });
});

describe('the built-in hand-over as a module', () => {
  const changes = {
    'events.1.at': '50 ms',
    'events.2.at': '250 ms',
    'firmware.handover.return_time': '100 ms',
    'firmware.handover.ramp': '100 ms',
    'firmware.handover.idle_time': '20 ms',
    'shelves.walk_in': '50 ms',
    'shelves.start_delay': '0 s',
    duration: '1 s',
  };
  const [as, own] = ['', replaced('hand-over', 'B1 set point_V')].map((below) =>
    run(scenarioOf('ac-loss-and-return', changes, below, shipped('hand-over-as-built')), null),
  ) as [Run, Run];

  it('starts, carries and sleeps at the same moments, at the same bus voltage', () => {
    const moments = ({ result }: Run) =>
      result.log
        .filter(({ what }) => /^battery-(start|carry|sleep)$/.test(what))
        .map(({ time_s, what }) => [what, time_s]);
    expect(moments(as).length).toBeGreaterThan(10);
    expect(moments(own)).toEqual(moments(as));
    expect(own.report.metrics.bus_min_V).toBe(as.report.metrics.bus_min_V);
    expect(Math.max(...curve(own.result, 'hand-over.B1 set point_V'))).toBeGreaterThan(45);
  });

  it('that never starts leaves the cabinet without its batteries', () => {
    const none = 'export const controller = { run: ({ voltage_V }) => voltage_V.map(() => 0) };';
    const { report } = run(scenarioOf('ac-loss-and-return', changes, replaced('hand-over'), none), null);
    expect(report.verdict).toBe('fail');
  });

  it('is refused where there is no battery shelf', () => {
    expect(
      refusedWith(() => scenarioOf('bench-step', {}, replaced('hand-over'), 'export const controller = {};')),
    ).toMatch(/no battery shelf/);
  });
});

describe('numbers to be shown', () => {
  it('are refused by name where they have no unit, stand twice, or are no numbers', () => {
    const shows = (names: string): string =>
      refusedWith(() => scenarioOf('bench-step', {}, replaced('share', names), shipped('share-as-built')));
    expect(shows('error')).toMatch(/ends in its unit: _V, _A, _W or _ratio/);
    expect(shows('a_V, a_V')).toMatch(/a_V a second time/);
    const text =
      'export const controller = { run({ current_ratio }, memory, setup, shown) { shown[0] = 0 / 0; return current_ratio.map(() => 0); } };';
    expect(
      refusedWith(() =>
        run(scenarioOf('bench-step', { duration: '0.1 s' }, replaced('share', 'a_V'), text), null),
      ),
    ).toMatch(/run\(\) left NaN to be shown as a_V/);
  });
});

/** A channel at the finest that was kept. */
function curve({ recording }: Run['result'], id: string): number[] {
  const k = recording.channels.findIndex((channel) => channel.id === id);
  expect(k, id).toBeGreaterThanOrEqual(0);
  return [...recording.min[k]!, ...recording.max[k]!];
}
