/** Duties of the bench with a battery shelf: runs of three seconds, hours and years by the slow pass. */
import { describe, expect, it } from 'vitest';
import { steadyRise_K } from '../../../src/copper/rating.ts';
import { duty } from '../../../src/studies/duty/duty.ts';
import { dutyEnd, dutyLetter } from '../../../src/studies/duty/judge.ts';
import {
  dutyCourseCsv,
  dutyCsv,
  dutyMarkdown,
  dutySentence,
  passWords,
} from '../../../src/studies/duty/paper.ts';
import { planDuty } from '../../../src/studies/duty/plan.ts';
import type { DutyReport } from '../../../src/studies/duty/report.ts';
import { warmChanges, warmthOf } from '../../../src/studies/duty/warm-parts.ts';
import type { Stretch } from '../../../src/studies/written/study-file.ts';
import { changes, contextHere, messageOf, studyOf } from '../here.ts';

/** 12 kW over a bar that 250 A heat by 50 K. */
const bench = changes(
  'batteries.add = B1 in A after K1',
  'load.before = 12 kW',
  'duration = 3 s',
  'bars.links.rated_current = 250 A',
);

const stretch = (name: string, lasts: string, ...own: string[]): Stretch => ({
  ...{ name, for: lasts },
  changes: own.map((pair) => changes(pair)[0]!),
});
const lost = 'events.add = ac-loss all at 0.2 s';

const carriedOut = async (
  stretches: readonly Stretch[],
  words: Readonly<Record<string, string>> = {},
): Promise<DutyReport> => {
  const { read, run } = contextHere();
  return duty.carryOut(
    planDuty(studyOf('duty', 'bench-step', { changes: bench, stretches, words }), read),
    run,
  );
};

const found = (report: DutyReport, id: string) => report.findings.find((one) => one.id === id)!;

describe('a day with an outage', async () => {
  const report = await carriedOut(
    [
      stretch('day', '16 h'),
      stretch('outage', '20 min', lost, 'outage = yes'),
      stretch('night', '460 min', 'load.before = 6 kW', 'load.after = 6 kW'),
    ],
    { repeat: '365', begin: 'cold' },
  );

  it('is marched until a round leaves the cabinet as it found it, and says so', () => {
    expect(report.settled_after).toBe(2);
    expect(passWords(report)).toMatch(/ From round 2 on all are alike\.$/);
    expect(report.last_course[0]!.at_s).toBe(24 * 3600);
  });

  it('judges what its runs leave open: heat at its highest', () => {
    const { value, stretch: where, node } = found(report, 'bar-heat');
    expect([where, node]).toEqual(['day', 'L1']);
    // 12 kW at 50.2 V.
    expect(50 * value!).toBeCloseTo(steadyRise_K(239, 250), -1);
    expect(report.stretches[0]!.settled).toContain('bar-heat');
    expect(report.stretches.flatMap(({ conditions }) => conditions).join()).not.toMatch(/heat|life|recharge/);
  });

  it('judges the recharge as it takes: 20 min of 12 kW at 2.5 kW, its wait before it', () => {
    const { value, verdict, stretch: where } = found(report, 'battery-recharge');
    expect([verdict, where]).toEqual(['pass', 'night']);
    const moved_J = (12e3 / 0.96) * 1200;
    expect(value!).toBeGreaterThan(300 + moved_J / (2500 * 0.96));
    expect(value!).toBeLessThan(1.1 * (300 + moved_J / (2500 * 0.96)));
  });

  it('judges lives over the whole calendar', () => {
    expect(found(report, 'tray-life')).toMatchObject({ stretch: null, node: 'T1', unit: 's' });
    expect(found(report, 'bank-life').verdict).toBe('pass');
  });

  it('takes bars as warm as they are, and says how far that moved a current', () => {
    for (const { again } of report.stretches) expect(again.moved_ratio).toBeLessThan(0.01);
    expect(report.stretches[0]!.trial.changes.map(({ path }) => path)).toContain('bars.links.L1.resistance');
  });

  it('takes cells as warm as they are: at rest as their coolant, where a run alone has 25 °C', () => {
    expect(report.stretches[0]!.trial.changes).toContainEqual({
      path: 'trays.cell_temperature',
      value: '30 °C',
    });
  });

  it('writes a course that goes on where a stretch ends', () => {
    const { course } = report;
    for (let k = 1; k < course.length; k++)
      expect(course[k]!.at_s).toBeGreaterThanOrEqual(course[k - 1]!.at_s);
    expect(course[0]).toMatchObject({ bar_K: 0, charge_ratio: 1 });
    expect(dutyCourseCsv(report).split('\r\n')).toHaveLength(course.length + 2);
    expect(dutyCsv(report)).toContain('battery-recharge');
    expect(dutyMarkdown(report)).toContain('## Limits judged by the course');
  });
});

describe('a stretch whose run ends before it has settled', () => {
  it('conditions the duty, and says what', async () => {
    const report = await carriedOut([
      stretch('outage', '20 min', 'events.add = ac-loss all at 2.5 s', 'outage = yes'),
    ]);
    expect(report.stretches[0]!.conditions[0]).toMatch(
      /^something still changes at 2\.\d+ s, within what stands for the rest of it from 2 s on$/,
    );
    expect(dutyLetter(report)).not.toBe('P');
  });
});

describe('parts in a state', () => {
  it('are run as warm as they are, the state not once more on top', () => {
    const { read } = contextHere();
    const states = changes('temperature.trays = hot', 'temperature.bars = hot');
    const plain = read({ scenario: 'scenarios/bench-step.yaml', changes: [...bench, ...states] });
    const warm = warmthOf(plain, { bar_K: new Map([['L1', 40]]), tray_degC: new Map([['T1', 52]]) });
    const { scenario } = read({
      scenario: 'scenarios/bench-step.yaml',
      changes: [...bench, ...states, ...warmChanges(warm)],
    });
    expect(scenario.trays[0]!.values.cell_temperature_degC).toBeCloseTo(52, 6);
    const [was, is] = [plain.scenario, scenario].map(({ bars }) => bars.links[0]!.resistance_ohm);
    expect(is! / was!).toBeCloseTo(warm.get('bars.links.L1.resistance')!.ratio, 4);
  });
});

describe('a limit that the calendar leaves open', () => {
  it('is named in the headline and comes before what passes', async () => {
    const report = await carriedOut([
      stretch('day', '10 min', 'batteries.charge = 50 %', 'trays.coolant_temperature = 5 °C'),
    ]);
    expect(dutyLetter(report)).toBe('C');
    expect(report.findings[0]!.id).toBe('battery-recharge');
    expect(dutySentence(report)).toMatch(
      /passes with conditions; battery-recharge is not judged \(still at \d+ %/,
    );
  });
});

describe('a duty that fails', () => {
  it('does where batteries give out, and says when', async () => {
    const report = await carriedOut([
      stretch('day', '1 h'),
      stretch('outage', '30 min', lost, 'outage = yes'),
    ]);
    expect(dutyEnd(report)).toBe('failed');
    // 95 % of 5 kWh at 12.5 kW of the packs is 23 min less what R takes.
    expect(dutySentence(report)).toMatch(/fails: B1 is empty after 1 h 2[012] min/);
  });

  it('does where a joint runs away, with the moment', async () => {
    const report = await carriedOut([
      stretch(
        'bad joint',
        '10 h',
        'bars.links.joint_thermal_resistance = 60 K/W',
        'bars.links.joint_resistance = 80 µΩ',
      ),
    ]);
    const { verdict, reason, at_s } = found(report, 'joint-heat');
    expect([verdict, dutyLetter(report)]).toEqual(['fail', 'F']);
    expect(reason).toMatch(/^runs away/);
    // Begun as warm as for good: it is past all limits from the beginning.
    expect(at_s).toBeLessThan(3600);
  });
});

describe('a duty, asked for what is none', () => {
  it.each([
    [[], {}, 'no stretches'],
    [[stretch('day', '8')], {}, 'stretches.day.for'],
    [[stretch('day', '0 s')], {}, 'a time above 0'],
    [[stretch('day', '2 years')], {}, 'up to a year'],
    [[stretch('day', '8 h')], { begin: 'warm' }, 'steady or cold'],
    [[stretch('day', '8 h')], { repeat: '0' }, 'a whole number from 1'],
    [[stretch('day', '8 h'), stretch('night', '8 h', 'trays.T1.fitted = no')], {}, 'other units than in day'],
  ])('refuses %j %j and says what to write', async (stretches, words, expected) => {
    expect(await messageOf(() => carriedOut(stretches, words))).toContain(expected);
  });
});
