/** Controllers of the user's own: the same bits as the built-in law, and every failure named as the user's. */
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { BadInput, type Problem } from '../../../src/base/problem.ts';
import { readShortText } from '../../../src/disk/read-file.ts';
import { restAt } from '../../../src/linear/rest.ts';
import { linearise } from '../../../src/linear/sampled.ts';
import { run } from '../../../src/run.ts';
import { readScenario } from '../../../src/scenario/read.ts';
import type { Scenario } from '../../../src/scenario/scenario.ts';
import { sharedHere } from '../../studies/here.ts';

const root = new URL('../../../', import.meta.url).pathname;
const builtIn = readShortText(`${root}models/controllers/share-as-built.ts`).text;

/** single-step for 0.2 s with `text` in place of a task. */
function withController(text: string, replaces = 'share', name = 'own.ts'): Scenario {
  const scenario = readShortText(`${root}scenarios/single-step.yaml`).text;
  const own = `${root}scenarios/${name}`;
  const files = (path: string): { text: string; sha256: string } => {
    const given =
      path === own
        ? text
        : path.endsWith('/scenarios/mine.yaml')
          ? `${scenario}\ncontrollers:\n  - { replaces: ${replaces}, file: ${name} }\n`
          : null;
    if (given === null) return readShortText(path);
    return { text: given, sha256: createHash('sha256').update(given).digest('hex') };
  };
  const changes = [{ path: 'duration', value: '0.2 s' }];
  return readScenario(`${root}scenarios/mine.yaml`, { files, changes }).scenario;
}

function problemsOf(work: () => unknown): readonly Problem[] {
  try {
    work();
  } catch (error) {
    if (error instanceof BadInput) return error.problems;
    throw error;
  }
  throw new Error('nothing was thrown');
}

/** What is said of a share controller whose run is `body`. */
function said(body: string): Problem {
  const [problem] = problemsOf(() =>
    run(
      withController(`export const controller = {\n  run(input, memory, setup) {\n    ${body}\n  },\n};\n`),
      null,
    ),
  );
  return problem!;
}

describe('the built-in share law as a module', () => {
  const changes = [{ path: 'duration', value: '0.6 s' }];
  const both = ['single-step', 'own-share'].map((name) => {
    const { scenario } = readScenario(`${root}scenarios/${name}.yaml`, { files: readShortText, changes });
    return run(scenario, null);
  });

  it('ends in the same bits as the built-in law', () => {
    const [as, own] = both;
    expect(own!.result.recording).toEqual(as!.result.recording);
    expect(own!.result.audit).toEqual(as!.result.audit);
    expect(own!.result.streams).toEqual(as!.result.streams);
    expect(own!.report.findings).toEqual(as!.report.findings);
  });

  it('stands among the inputs of the report with the sum of its text', () => {
    expect(both[1]!.report.inputs).toContainEqual({
      path: `${root}models/controllers/share-as-built.ts`,
      sha256: createHash('sha256').update(builtIn).digest('hex'),
    });
  });

  it('has the same slopes as the built-in law, its memory under its own names', () => {
    const systems = ['single-step', 'own-share'].map((name) =>
      linearise(
        restAt(readScenario(`${root}scenarios/${name}.yaml`, { files: readShortText }).scenario, 200e3),
      ),
    );
    expect(systems[1]!.tasks.map(({ run: jump }) => [...jump.matrix])).toEqual(
      systems[0]!.tasks.map(({ run: jump }) => [...jump.matrix]),
    );
    expect(systems[1]!.labels).toEqual(systems[0]!.labels);
  });

  it('comes to rest too at a load that its start from trims of zero cannot carry', () => {
    const text = builtIn.replace('rest(k,', 'unused(k,').replace('restingMemory:', 'unusedMemory:');
    const scenario = withController(text);
    // Droop alone would have S1 take more from AC than it may: the run is brought there from half the load.
    const atRest = run({ ...scenario, load: { kind: 'constant', power_W: 240e3 } }, null);
    expect(atRest.result.log.map(({ detail }) => detail)).toContain(
      'controllers that do not say where they rest were run to it first',
    );
    const builtInRest = run(
      { ...scenario, controllers: [], load: { kind: 'constant', power_W: 240e3 } },
      null,
    );
    for (const name of ['bus_min_V', 'bus_max_V'] as const)
      expect(Math.abs(atRest.report.metrics[name]! - builtInRest.report.metrics[name]!)).toBeLessThan(0.02);
    const { trim_V } = restAt(scenario, 240e3).controls.share;
    const there = restAt(
      readScenario(`${root}scenarios/single-step.yaml`, { files: readShortText }).scenario,
      240e3,
    );
    trim_V.forEach((u, k) => {
      expect(Math.abs(u - there.controls.share.trim_V[k]!)).toBeLessThan(1e-3);
    });
  });

  it('comes to rest by itself where it does not say where it rests', () => {
    const text = builtIn.replace('rest(k,', 'unused(k,').replace('restingMemory:', 'unusedMemory:');
    const scenario = withController(
      text.replace(/^import type.*$/m, 'type ShareController = any; type ShareSetup = any;'),
    );
    const found = restAt(scenario, 200e3);
    const there = restAt(
      readScenario(`${root}scenarios/single-step.yaml`, { files: readShortText }).scenario,
      200e3,
    );
    found.network.stages.trim_V.forEach((u, k) => {
      expect(Math.abs(u - there.network.stages.trim_V[k]!)).toBeLessThan(2e-5);
    });
  });
});

describe('a controller that fails', () => {
  it('by throwing is named with file, line and time', () => {
    const problem = said(
      'if (input.time_s > 0.05) setup.nothing.more;\n    return input.current_ratio.map(() => 0);',
    );
    expect(problem).toMatchObject({ file: `${root}scenarios/own.ts`, line: 3 });
    expect(problem.at_s).toBeCloseTo(0.06, 9);
    expect(problem.found).toMatch(/^it threw TypeError: .*'more'.*, at 0\.06 s of the run$/);
  });

  it('in TypeScript is named at the line that the user wrote', () => {
    const text = `interface Wide {\n  a: number;\n}\n\nexport const controller = {\n  run(input: any): number[] {\n    const wide: Wide | null = null;\n    return wide!.a;\n  },\n};\n`;
    expect(problemsOf(() => run(withController(text), null))[0]).toMatchObject({ line: 8 });
  });

  it.each([
    ['return input.current_ratio.map(() => NaN);', 'run() returned NaN for S1'],
    ['', 'run() returned undefined in place of 8 numbers'],
    ['return [0, 0, 0];', 'run() returned 3 numbers in place of 8'],
    ["return ['a', 0, 0, 0, 0, 0, 0, 0];", 'run() returned "a" for S1'],
    ['return { then() {} };', 'run() returned a promise in place of 8 numbers'],
    ['return Promise.resolve([]);', "it threw ReferenceError: 'Promise' is not defined"],
    ['return input.current_ratio.map(() => 3);', 'run() returned 3 V for S1'],
    ['return [Math.random()];', 'it threw Error: random numbers would make two runs differ'],
    ['return [Date.now()];', "it threw ReferenceError: 'Date' is not defined"],
    ['return [process.pid];', "it threw ReferenceError: 'process' is not defined"],
  ])('by `%s` is told what it returned', (body, found) => {
    expect(said(body).found).toContain(found);
  });

  it('by a number in memory that is not finite is told which', () => {
    const text = `export const controller = { memory: () => ['sum'], run(input, memory) { memory[0] /= 0; return input.current_ratio.map(() => 0); } };`;
    const [problem] = problemsOf(() => run(withController(text), null));
    expect(problem!.found).toContain('run() left NaN in memory as sum');
  });

  it('by never returning is ended, and nothing hangs', () => {
    expect(said('for (;;);').found).toMatch(
      /^a call that had not returned after 200 million turns of the interpreter, at /,
    );
  }, 60_000);

  it.each([
    ['export const controller = 3;', 'no export named controller'],
    ['export const other = {};', 'no export named controller'],
    ['export const controller = {};', 'a controller without the function run'],
    ["import { x } from './x.ts'; export const controller = { run: () => x };", 'it imports ./x.ts'],
    [
      "export const controller = { memory: () => ['a', 'a'], run() {} };",
      'memory() that does not give names',
    ],
  ])('to be one is refused before the run: %s', (text, found) => {
    const [problem] = problemsOf(() => run(withController(text), null));
    expect(problem!.found).toContain(found);
    expect(problem!.at_s).toBeUndefined();
  });

  it('to be JavaScript is refused with the place', () => {
    expect(problemsOf(() => withController('export const controller = {\n  run( {\n};\n'))[0]).toMatchObject({
      file: `${root}scenarios/own.ts`,
      line: 3,
    });
  });

  it('to name a task that can be replaced is refused', () => {
    expect(problemsOf(() => withController(builtIn, 'shares'))[0]).toMatchObject({
      path: 'controllers.1.replaces',
      expected: 'share, smoothing, voltage-loop or hand-over',
      mend: 'did you mean share?',
    });
  });
});

describe('the share law that does not hunt', () => {
  it('ends the limit cycle of the built-in law, and errs by the dead band and half a quantum at most', async () => {
    const [as] = await sharedHere('single-step', 240e3, ['as it is']);
    const [quiet] = await sharedHere('quiet-share', 240e3, ['as it is']);
    expect(as!.cycle_ratio).toBeGreaterThan(0.015);
    expect(quiet!.cycle_ratio).toBeLessThan(1e-4);
    // Half of 10 mV over the droop of a shelf, 0.694 mΩ at 720 A, is 1 % of rated; the dead band is 0.5 %.
    expect(quiet!.error_ratio).toBeLessThan(0.005 + 0.005 / (0.694e-3 * 720));
  });
});

describe('a smoothing law of the user’s own', () => {
  const first = `export const controller = {
  memory: () => ['smoothed'],
  restingMemory: ({ load_W }) => [load_W],
  run({ sources_W, trays_W, online }, memory, { values, trays }) {
    const load = sources_W + trays_W;
    memory[0] += (values.period_s / values.time_constant_s) * (load - memory[0]);
    const count = online.filter((on) => on).length;
    return trays.map((_, k) => (online[k] ? (load - memory[0]) / count : 0));
  },
};
`;

  it('carries the step as the built-in law does, the charge loop apart', () => {
    const own = run(withController(first, 'smoothing', 'own.mjs'), null).report;
    const { scenario } = readScenario(`${root}scenarios/single-step.yaml`, {
      files: readShortText,
      changes: [{ path: 'duration', value: '0.2 s' }],
    });
    const as = run(scenario, null).report;
    expect(own.status).toBe('ok');
    expect(Math.abs(own.metrics.bus_min_V! / as.metrics.bus_min_V! - 1)).toBeLessThan(1e-4);
  });

  it('has a mode of its own under its own name, once it rests', () => {
    const labels = linearise(restAt(withController(first, 'smoothing', 'own.mjs'), 200e3)).labels;
    expect(labels).toContain('smoothed');
    expect(labels).not.toContain('smoothed load');
  });

  it('that returns nothing for a tray is told which', () => {
    const text =
      'export const controller = { run: ({ energy_J }) => [...energy_J].map((_, k) => (k === 3 ? null : 0)) };';
    const [problem] = problemsOf(() => run(withController(text, 'smoothing', 'own.mjs'), null));
    expect(problem!.found).toContain('run() returned null for T4');
  });
});
