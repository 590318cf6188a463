/** What a matrix says beside its letters. */
import { describe, expect, it } from 'vitest';
import { matrixText } from '../../../src/cli/terminal/study/matrix-text.ts';
import { cellWords, matrixCsv, matrixMarkdown, rippleNote } from '../../../src/studies/matrix/paper.ts';
import { planMatrix } from '../../../src/studies/matrix/plan.ts';
import { matrixReport } from '../../../src/studies/matrix/report.ts';
import { shownTables } from '../../../src/studies/matrix/shown-tables.ts';
import type { RunOutcome } from '../../../src/studies/trials/run-outcome.ts';
import { letterOf } from '../../../src/studies/trials/states.ts';
import { passed } from '../../fixtures/outcome.ts';
import { changes, contextHere, messageOf, studyOf } from '../here.ts';

const { read } = contextHere();
/** The report of a plan of which every cell came out so. */
function reported(plan: ReturnType<typeof planMatrix>, outcome: RunOutcome = passed) {
  return matrixReport(
    plan,
    plan.trials.map(() => outcome),
  );
}

function planned(duration: string, ...events: readonly string[]) {
  return planMatrix(
    studyOf('matrix', 'pulse-train', {
      changes: changes(`duration = ${duration}`),
      faults: events.map((event) => ({
        name: event,
        changes: changes(`events.add = ${event}`, 'outage = yes'),
      })),
    }),
    read,
  );
}

describe('a matrix that shows limits', () => {
  const at = (shows: string) =>
    planMatrix(
      studyOf('matrix', 'pulse-train', {
        words: { shows },
        corners: [
          { name: 'as built', changes: [] },
          { name: 'shelves at the links', changes: changes('shelves.move = S3 to A after S1') },
        ],
        redundancy: [
          { name: 'tie closed', changes: [] },
          { name: 'tie open', changes: changes('bars.tie.closed = no') },
        ],
      }),
      read,
    );
  const balance = { ...passed.findings[0]!, id: 'section-balance', value: 0.086, unit: 'ratio', node: 'A' };

  it('has their values in every cell, redundancy side by side, and says where one does not arise', () => {
    const plan = at('section-balance, bar-heat');
    const report = reported(plan, { ...passed, findings: [...passed.findings, balance] });
    expect(report.shows).toEqual(['section-balance', 'bar-heat']);
    expect(shownTables(report).map(({ rows }) => rows.map(({ name }) => name))).toEqual([
      ['tie closed', 'tie open'],
      ['tie closed', 'tie open'],
    ]);
    const text = matrixMarkdown(report);
    expect(text).toContain('## section-balance');
    expect(text).toContain('| tie open | 8.6 % A | 8.6 % A |');
    expect(text).toContain('| tie open | does not arise | does not arise |');
    const [head, first] = matrixCsv(report).split('\r\n');
    expect(head).toContain('replay,section-balance,bar-heat,conditions');
    expect(first).toContain(',0.086,,');
  });

  it('refuses a limit that the scenario has not, with the nearest', async () => {
    expect(await messageOf(async () => at('link-balanse, bar-heat'))).toMatch(
      /shows\n {2}found {5}link-balanse\n[\s\S]*nearest: link-balance/,
    );
  });

  it('shows nothing more where it is not asked to', () => {
    const report = reported(planned('15 s', 'shelf-trip S4 at 1 s'));
    expect([report.shows, report.cells[0]!.shown]).toEqual([undefined, undefined]);
  });
});

describe('a matrix', () => {
  it('says after which faults the run ends too early for the ripple of AC power', () => {
    // Steady operation begins 10 s after an event; two periods of 0.5 Hz are 4 s.
    expect(planned('15 s', 'shelf-trip S4 at 1 s', 'tray-out T4 at 2 s').ripple_not_after).toEqual([
      'tray-out T4 at 2 s',
    ]);
    expect(planned('16 s', 'shelf-trip S4 at 1 s', 'tray-out T4 at 2 s').ripple_not_after).toEqual([]);
    const report = reported(planned('10 s', 'shelf-trip S4 at 1 s'));
    expect(rippleNote(report)).toContain('too early for that after: shelf-trip S4 at 1 s.');
    expect(matrixMarkdown(report)).toContain('There they are judged before the fault only.');
  });

  it('waits for the walk-in where AC comes back', () => {
    const study = studyOf('matrix', 'pulse-train', {
      faults: [
        {
          name: 'ac',
          changes: changes('events.add = ac-loss all at 1 s', 'events.add = ac-return all at 2 s'),
        },
      ],
    });
    const at = (duration: string) =>
      planMatrix({ ...study, changes: changes(`duration = ${duration}`) }, read).ripple_not_after;
    expect([at('16 s'), at('40 s')]).toEqual([['ac'], []]);
  });

  it('names every fault of its list in words, with the reason of its amount', () => {
    const plan = planMatrix(
      studyOf('matrix', 'single-step', { everyFault: { at: '0.2 s', units: 'one', back: '0.4 s' } }),
      read,
    );
    const { faults, fault_words } = reported(plan);
    expect(fault_words[0]).toBe('');
    expect(fault_words.slice(1).filter((words) => words === '')).toEqual([]);
    expect(fault_words[faults.indexOf('set-point-shift S4 by 0.5 %')]).toMatch(
      /^the shelf's set point moves \(from one end of a usual accuracy of ±0\.25 % to the other/,
    );
    expect(fault_words[faults.indexOf('battery-fail B3, AC lost')]).toMatch(
      /; AC goes at the same time; back at 0\.4 s$/,
    );
  });

  it('gives an X where every sled was dark, and says so before the limits that followed from it', () => {
    const dark: RunOutcome = {
      ...passed,
      verdict: 'fail',
      summary: 'Bus not above 102 % is broken.',
      collapse: 'all sleds were off at 2.1 s',
    };
    expect(letterOf(dark)).toBe('X');
    expect(letterOf({ ...dark, collapse: null })).toBe('F');
    const report = reported(planned('16 s', 'shelf-trip S4 at 1 s'), dark);
    expect(cellWords(report.cells[0]!)).toBe(
      'Collapsed: all sleds were off at 2.1 s. Bus not above 102 % is broken.',
    );
  });

  it('fits a terminal: letters by corner and the tightest of each row where whole cells are too wide', () => {
    const corners = ['new', 'mid-life', 'aged', 'hot', 'cold', 'line low', 'line high', 'late signals'];
    const study = studyOf('matrix', 'pulse-train', {
      corners: corners.map((name) => ({ name, changes: [] })),
    });
    const finding = {
      id: 'line-current-continuous',
      column: 'normal',
      verdict: 'pass',
      value: 0.6,
      limit: 0.8,
      unit: 'ratio',
      headroom_ratio: 0.24,
      node: 'F1',
      time_s: null,
    } as const;
    const text = matrixText(
      reported(planMatrix(study, read), { ...passed, findings: [finding] }),
      'next',
      (_, words) => words,
    );
    const lines = text.split('\n');
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(120);
    expect(lines).toContain(
      '  fault     1 2 3 4 5 6 7 8  tightest                                                  in',
    );
    expect(lines).toContain(
      '  no fault  P P P P P P P P  line-current-continuous 60 % against 80 %, headroom 24 %  new',
    );
    expect(text).toContain(
      '1 new, 2 mid-life, 3 aged, 4 hot, 5 cold, 6 line low, 7 line high, 8 late signals',
    );
  });
});
