/** What a duty goes through: stretches with how long each lasts, and one fast run for each. */
import { BadInput, type Problem } from '../../base/problem.ts';
import { readQuantity } from '../../base/quantity.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import type { Change, Scenario } from '../../scenario/scenario.ts';
import type { Planned } from '../study.ts';
import type { ChangedScenario, ReadChanged, Trial } from '../trials/trial.ts';
import { plannedFrom } from '../written/planned.ts';
import type { Stretch, StudyFile } from '../written/study-file.ts';
import { wholeNumber } from '../written/whole-number.ts';

export interface PlannedStretch {
  readonly name: string;
  readonly for_s: number;
  readonly scenario: Scenario;
  /** Every value with what is written of it. */
  readonly cells: ReadScenario['cells'];
  readonly trial: Trial<'drive'>;
}

export interface DutyPlan extends Planned {
  readonly study: StudyFile;
  readonly stretches: readonly PlannedStretch[];
  /** How often the calendar is gone through. */
  readonly repeat: number;
  readonly begin: 'cold' | 'steady';
  /** Reads a scenario as warm as the bars are. */
  readonly read: ReadChanged;
}

/** Ten years of days. */
const mostRepeats = 3653;
const longest_s = 31_557_600;

/** Throws BadInput. */
export function planDuty(study: StudyFile, read: ReadChanged): DutyPlan {
  const problems: Problem[] = [];
  const lengths = study.stretches.map((stretch) => lengthOf(stretch, problems));
  if (study.stretches.length === 0) problems.push(withoutStretches);
  const begin = study.words.get('begin') ?? 'steady';
  if (begin !== 'cold' && begin !== 'steady') problems.push(otherBegin(begin));
  if (problems.length > 0) throw new BadInput(problems);
  const stretches = study.stretches.map(({ name, changes: own }, k): PlannedStretch => {
    const of: ChangedScenario = { scenario: study.scenario, changes: [...study.changes, ...own] };
    const { scenario, cells } = read(of);
    return { name, for_s: lengths[k]!, scenario, cells, trial: { kind: 'drive', ...of } };
  });
  refuseOtherUnits(stretches);
  return {
    ...plannedFrom(
      study,
      read,
      {},
      stretches.map(({ scenario }) => scenario.inputs),
    ),
    study,
    stretches,
    repeat: wholeNumber(study, 'repeat', 1, 1, mostRepeats),
    begin: begin as DutyPlan['begin'],
    read,
  };
}

/** Of the calendar, once [s]. */
export function roundLength_s({ stretches }: Pick<DutyPlan, 'stretches'>): number {
  return stretches.reduce((sum, { for_s }) => sum + for_s, 0);
}

const withoutStretches: Problem = {
  severity: 'error',
  path: 'stretches',
  found: 'no stretches',
  expected: 'a file of a study that says what the cabinet goes through',
  mend: 'write stretches: { day: { for: 16 h }, night: { for: 8 h, changes: [load.high = 180 kW] } }, or use duty-day',
};

function otherBegin(found: string): Problem {
  return { severity: 'error', path: 'begin', found, expected: 'steady or cold', mend: 'write one of them' };
}

function lengthOf({ name, for: text, origin }: Stretch, problems: Problem[]): number {
  const path = `stretches.${name}.for`;
  const reading = readQuantity(text, 'time');
  if (!reading.ok) {
    const { found, expected, mend } = reading;
    problems.push({ severity: 'error', ...origin, path, found, expected, mend });
    return Number.NaN;
  }
  if (!(reading.value > 0) || reading.value > longest_s) {
    problems.push({
      severity: 'error',
      ...origin,
      path,
      found: text,
      expected: 'a time above 0 and up to a year',
      mend: 'write it like 8 h; use repeat for what goes on longer',
    });
  }
  return reading.value;
}

/** Heat, charge and wear belong to units: who comes or goes has no past. */
function refuseOtherUnits(stretches: readonly PlannedStretch[]): void {
  const unitsOf = ({ trays, banks, batteries, bars, sections }: Scenario): string =>
    [trays, banks, batteries, bars.links]
      .map((units) => units.map(({ id }) => id).join(' '))
      .concat(sections.map(({ id, order }) => `${id}: ${order.join(' ')}`))
      .join('; ');
  const [first] = stretches;
  const others = stretches.filter(({ scenario }) => unitsOf(scenario) !== unitsOf(first!.scenario));
  if (others.length === 0) return;
  throw new BadInput(
    others.map(({ name }) => ({
      severity: 'error' as const,
      path: `stretches.${name}.changes`,
      found: `other units than in ${first!.name}`,
      expected: 'the same cabinet in all stretches: what is warm or charged must be there before and after',
      mend: 'take units out by an event (events.add = tray-out T4 at 1 s), or study the other cabinet by itself',
    })),
  );
}

/** As a stretch runs where all its batteries take what the firmware grants them: half charged, without the wait and ramp of seconds. */
export const chargingChanges: readonly Change[] = [
  { path: 'batteries.charge', value: '50 %' },
  { path: 'firmware.handover.charge_wait_min', value: '0.1 s' },
  { path: 'firmware.handover.charge_wait_max', value: '0.2 s' },
  { path: 'firmware.handover.charge_ramp', value: '1 s' },
];
