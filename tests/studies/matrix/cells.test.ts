/** Cells of a matrix, run. */
import { describe, expect, it } from 'vitest';
import { eventKinds } from '../../../src/scenario/occurrences.ts';
import { planMatrix } from '../../../src/studies/matrix/plan.ts';
import { matrixReport } from '../../../src/studies/matrix/report.ts';
import { changes, contextHere, messageOf, shown, studyOf } from '../here.ts';

const step = changes(...shown);

describe('matrix()', () => {
  it('has a fault for each kind of event, in circumstances in which it is felt', () => {
    const study = studyOf('matrix', 'single-step', {
      everyFault: { at: '0.2 s', units: 'one', back: '0.4 s' },
    });
    const { faults } = planMatrix(study, contextHere().read);
    const happened = faults.flatMap(({ changes: made }) => made.flatMap(({ value }) => value.split(' ')[0]!));
    expect(new Set(happened)).toEqual(new Set([...eventKinds, 'yes']));
    // What comes back is no outage; a battery that does not start is felt without AC only.
    const named = (name: string) => faults.find((fault) => fault.name === name)?.changes.map((c) => c.value);
    expect(named('ac-loss all')).toEqual(['ac-loss all at 0.2 s', 'ac-return all at 0.4 s']);
    expect(named('battery-fail B3, AC lost')).toEqual([
      'battery-fail B3 at 0.2 s',
      'ac-loss all at 0.2 s',
      'ac-return all at 0.4 s',
      'yes',
    ]);
    expect(named('shelf-join S4')).toEqual(['shelf-trip S4 at 0.2 s', 'shelf-join S4 at 0.4 s', 'yes']);
  });

  it('gives each cell a letter, its binding limit and the command that repeats it', async () => {
    const study = studyOf('matrix', 'single-step', {
      changes: step,
      faults: [{ name: 'tray out', changes: changes('events.add = tray-out T4 at 10 ms', 'outage = yes') }],
      corners: [
        { name: 'new', changes: [] },
        { name: 'aged', changes: changes('ageing.trays = end-of-life') },
      ],
    });
    const { read, run } = contextHere();
    const plan = planMatrix(study, read);
    const report = matrixReport(plan, await run(plan.trials));
    expect(report.cells.map(({ fault, corner }) => `${fault}/${corner}`)).toEqual([
      'no fault/new',
      'no fault/aged',
      'tray out/new',
      'tray out/aged',
    ]);
    expect(report.cells[3]?.replay).toBe(
      "buswake run scenarios/single-step.yaml --set 'load.at=0.1 s' --set 'duration=0.61 s' --set ageing.trays=end-of-life --set 'events.add=tray-out T4 at 10 ms' --set outage=yes",
    );
    // Half a second does not show what flicker and heat ask for: no cell passes clean.
    for (const { letter, binding } of report.cells)
      expect([letter, binding]).toEqual(['C', 'tray-converter']);
  });

  it('refuses every wrong cell at once', async () => {
    const study = studyOf('matrix', 'single-step', {
      faults: [{ name: 'tray', changes: changes('events.add = tray-out T44 at 0.2 s') }],
      corners: [{ name: 'odd', changes: changes('trays.esrr = 1 mΩ') }],
    });
    const message = await messageOf(() => planMatrix(study, contextHere().read));
    expect(message).toContain('nearest: T4');
    expect(message).toContain('nearest: trays.esr');
  });
});
