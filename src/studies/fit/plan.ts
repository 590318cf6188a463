/** What a fit adjusts, within which ranges, and the measurement that it is to agree with. */
import { BadInput } from '../../base/problem.ts';
import type { Measurement } from '../../measured/measurement.ts';
import type { AskedMeasurement } from '../../request/run-request.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { toolVersion } from '../../version.ts';
import type { Planned } from '../study.ts';
import type { ChangedScenario, ReadChanged } from '../trials/trial.ts';
import { type Adjusted, adjustedOf } from './adjusted.ts';
import { suspectsIn } from './usual-suspects.ts';

export interface FitWanted extends ChangedScenario {
  /** Parameters as written, `shelves.droop = 0.4 mΩ to 1.2 mΩ`. */
  readonly adjust: readonly string[];
  /** Null: none was named. */
  readonly measured: AskedMeasurement | null;
}

export interface FitPlan extends Planned {
  readonly of: ChangedScenario;
  readonly scenario: Scenario;
  readonly measured: AskedMeasurement;
  readonly measurement: Measurement;
  readonly adjusted: readonly Adjusted[];
  /** Parameters that are not adjusted: a misfit is tried on them, and what was found may rest on them. */
  readonly suspects: readonly Adjusted[];
}

export type ReadMeasured = (asked: AskedMeasurement, scenario: Scenario) => Measurement;

/** Trials that a fit takes for each parameter, about: slopes, values, profile; and for each suspect. */
const trialsEach = { parameter: 20, suspect: 1 } as const;

/** Throws BadInput. */
export function planFit(
  { scenario: file, changes, adjust, measured }: FitWanted,
  read: ReadChanged,
  readMeasured: ReadMeasured,
): FitPlan {
  if (measured === null) {
    throw new BadInput([
      { severity: 'error', found: 'no measurement', expected: 'a file', mend: 'give --measured FILE' },
    ]);
  }
  const of = { scenario: file, changes };
  const at = read(of);
  const { scenario } = at;
  const measurement = readMeasured(measured, scenario);
  const adjusted = adjustedOf(adjust, at);
  const suspects = suspectsIn(at, adjusted);
  return {
    called: `fit of ${scenario.id}`,
    expects: trialsEach.parameter * adjusted.length + trialsEach.suspect * suspects.length,
    identity: {
      tool_version: toolVersion,
      study: { fit: adjusted, measured, scenario: file, changes },
      inputs: [...scenario.inputs, { path: measurement.file, sha256: measurement.sha256 }],
    },
    warnings: [],
    of,
    scenario,
    measured,
    measurement,
    adjusted,
    suspects,
  };
}
