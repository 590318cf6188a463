import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { BadInput } from '../../src/base/problem.ts';
import { planDesigns } from '../../src/studies/designs/plan.ts';
import { planMatrix } from '../../src/studies/matrix/plan.ts';
import { planSize } from '../../src/studies/size/plan.ts';
import { planSpread } from '../../src/studies/spread/plan.ts';
import { readStudy } from '../../src/studies/written/read-study.ts';
import { situationsOf } from '../../src/studies/written/situations.ts';
import type { StudyKind } from '../../src/studies/written/study-file.ts';
import { contextHere } from './here.ts';

const folder = new URL('../../scenarios/studies/', import.meta.url).pathname;
const shipped = readdirSync(folder).filter((name) => name.endsWith('.yaml'));

const files = (path: string) => ({ text: readFileSync(path, 'utf8'), sha256: 'not asked here' });
const kindOf = (name: string) =>
  /^study: (\w+)$/m.exec(readFileSync(folder + name, 'utf8'))?.[1] as StudyKind;

/** The whole message that a text is refused with. */
function refused(text: string, kind: StudyKind): string {
  try {
    readStudy('scenarios/studies/made.yaml', kind, () => ({ text, sha256: '' }));
  } catch (error) {
    if (error instanceof BadInput) return error.message;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('readStudy()', () => {
  it.each(shipped)('reads %s, and every situation of it is a scenario', (name) => {
    const study = readStudy(`scenarios/studies/${name}`, kindOf(name), files);
    const { read } = contextHere();
    if (study.kind === 'matrix') expect(planMatrix(study, read).trials.length).toBeGreaterThan(1);
    else if (study.kind === 'spread') expect(planSpread(study, read).trials.length).toBeGreaterThan(1);
    else {
      for (const { scenario, before, after } of situationsOf(study)) {
        expect(() => read({ scenario, changes: [...before, ...after] })).not.toThrow();
      }
    }
  });

  it('reads the study of designs that its page shows, figures with their sources', () => {
    const page = readFileSync(`${folder}README.md`, 'utf8');
    const text = /```yaml\n(study: designs\n[^`]*)```/.exec(page)![1]!;
    const study = readStudy('scenarios/studies/mine.yaml', 'designs', () => ({ text, sha256: '' }));
    expect(study.figures.map(({ family, figure, value, source }) => [family, figure, value, source])).toEqual(
      [
        ['shelves', 'cost', 2000, 'published'],
        ['trays', 'cost', 1300, 'published'],
        ['banks', 'cost', 250, 'assumed'],
        ['batteries', 'cost', 3100, 'published'],
      ],
    );
    const { read } = contextHere();
    const plan = planDesigns({ ...study, vary: study.vary.filter(([path]) => path !== 'trays.count') }, read);
    expect(plan.designs).toHaveLength(10);
    expect(plan.objectives).toEqual(['cost', 'losses']);
    // Small cells bring their own price; the other trays take that of the study.
    expect(plan.designs.slice(0, 2).map(({ bill }) => bill.totals.cost)).toEqual([42_500, 44_500]);
  });

  describe('with models of a unit', () => {
    const text = (models: string, more: readonly string[] = []): string =>
      [
        'study: size',
        'title: kinds',
        'scenario: ../bench-step.yaml',
        ...more,
        'vary:',
        `  trays.T1.model: ${models}`,
      ].join('\n');
    const made = (models: string, more?: readonly string[]) =>
      readStudy('scenarios/studies/made.yaml', 'size', () => ({ text: text(models, more), sha256: '' }));
    const tray = '../../models/tray-20kw.yaml';

    it('takes them from its own folder, each a file that the study is made of', () => {
      const { read } = contextHere();
      const plan = planSize(made(`${tray} | ${tray}`), read, { levers: false });
      expect(plan.last.values).toEqual(['models/tray-20kw.yaml', 'models/tray-20kw.yaml']);
      expect(plan.last.ordered).toBe(false);
      expect(plan.identity.inputs.map(({ path }) => path)).toContain('models/tray-20kw.yaml');
    });

    it('names the place of one that does not exist', () => {
      const { read } = contextHere();
      const said = (work: () => unknown): string => {
        try {
          work();
        } catch (error) {
          return (error as Error).message;
        }
        return '';
      };
      expect(said(() => planSize(made(`${tray} | ../none.yaml`), read))).toMatch(
        /^scenarios\/studies\/made\.yaml:5:19 {2}vary\.trays\.T1\.model: .*\n {2}found {5}no file scenarios\/none\.yaml/,
      );
      const lost = ['redundancy: { other: [trays.T1.model = ../none.yaml] }'];
      expect(said(() => planSize(made(tray, lost), read))).toMatch(
        /^scenarios\/studies\/made\.yaml:4:\d+ {2}redundancy\.other: .*\n {2}found {5}no file scenarios\/none\.yaml/,
      );
    });
  });

  it('refuses figures without a source, of what is in no bill, and what is no figure', () => {
    const text = [
      'study: designs',
      'title: odd',
      'scenario: ../pulse-train.yaml',
      'figures:',
      '  trays: { cost: 1300, price: { value: 1, source: assumed, why: so }, mass: { value: 24 kg } }',
      '  sleds: { cost: { value: 1, source: assumed, why: so } }',
    ].join('\n');
    expect(refused(text, 'designs')).toMatchInlineSnapshot(`
      "scenarios/studies/made.yaml:6:3  figures.sleds
        found     key sleds
        expected  one of shelves, trays, banks or batteries
        mend      remove it, or use one of shelves, trays, banks or batteries
      scenarios/studies/made.yaml:5:24  figures.trays.price
        found     key price
        expected  one of cost, mass or rack_units
        mend      remove it, or use one of cost, mass or rack_units
      scenarios/studies/made.yaml:5:18  figures.trays.cost
        found     1300, without a source
        expected  a value with its source
        mend      write { value: 1300, source: assumed, why: … }
      scenarios/studies/made.yaml:5:77  figures.trays.mass
        found     no source
        expected  published with citation, or derived, assumed or measured with why
        mend      add source: assumed, why: … if it is not published
      4 problems in 1 file. Nothing was run."
    `);
  });

  it('names everything wrong at its place', () => {
    const text = [
      'study: matrix',
      'title: odd',
      'scenario: ../pulse-train.yaml',
      'cornres: { new: [] }',
      'faults: { tray: [events.add tray-out] }',
      'every_fault: { units: all }',
    ].join('\n');
    expect(refused(text, 'matrix')).toMatchInlineSnapshot(`
      "scenarios/studies/made.yaml:4:1  cornres
        found     key cornres
        expected  one of study, title, about, scenario, changes, faults, every_fault, corners, redundancy, pairs, moments or shows
        mend      did you mean corners?
      scenarios/studies/made.yaml:5:18  faults.tray
        found     events.add tray-out
        expected  a change
        mend      write it like trays.capacitance = 130 F
      scenarios/studies/made.yaml:6:14  every_fault.at
        found     no at
        expected  when each fault happens
        mend      add a line at: … here
      scenarios/studies/made.yaml:6:23  every_fault.units
        found     all
        expected  one or each
        mend      write one of them
      4 problems in 1 file. Nothing was run."
    `);
  });

  it('refuses a study of another kind', () => {
    expect(refused('study: size\ntitle: x\nscenario: a.yaml\n', 'spread')).toMatchInlineSnapshot(`
      "scenarios/studies/made.yaml:1:8  study
        found     a study of kind size
        expected  a study of kind spread
        mend      use its own command, buswake size, or copy the file and write study: spread with what that asks for
      1 problem in 1 file. Nothing was run."
    `);
  });
});

describe('a change of a study that the scenario refuses', () => {
  it('is told with file, line and the fault that it belongs to', () => {
    const text = [
      'study: matrix',
      'title: t',
      'scenario: ../single-step.yaml',
      'faults:',
      '  tray and shelf: [events.add = tray-out T4 at 10 ms, events.add = shelf-trip S99 at 20 ms]',
      '',
    ].join('\n');
    const study = readStudy('scenarios/studies/made.yaml', 'matrix', () => ({ text, sha256: '' }));
    expect(() => planMatrix(study, contextHere().read)).toThrow(
      /^scenarios\/studies\/made.yaml:5:55 {2}faults.tray and shelf: events.2.unit\n {2}found {5}unit S99/,
    );
  });
});
