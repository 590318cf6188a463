/** From a result to the report: metrics, bands, findings, verdict. Wall time is not known here. */
import type { Failure, Result } from '../../engine/result.ts';
import { notLooked, type Stability } from '../../linear/stability.ts';
import type { Demand } from '../../loads/demand.ts';
import type { RecordedLoad } from '../../loads/recorded/recorded-load.ts';
import { toolVersion } from '../../version.ts';
import { basisOf } from '../basis/basis-of.ts';
import type { Protection } from '../protection/protection.ts';
import { copperOf } from '../read/copper.ts';
import { caseOf } from '../record/case.ts';
import { collapseOf } from '../record/collapse.ts';
import { seenOf } from '../record/seen.ts';
import type { Stated } from '../record/stated.ts';
import { responsesOf } from '../responses/summary.ts';
import { bandEdges_Hz } from '../signal/bands.ts';
import { finite } from '../signal/finite.ts';
import { askedOf } from '../statement/asked.ts';
import { oscillationOf } from '../swings/oscillating.ts';
import { cautionsAt } from '../words/cautions.ts';
import { numberText } from '../words/number-text.ts';
import { findingsOf } from './findings.ts';
import { leftOutIn } from './left-out.ts';
import { metricsOf } from './metrics.ts';
import { outcomeOf, suppliesLost } from './outcome.ts';
import { type Report, schemaVersion } from './report.ts';
import { concluded } from './verdict.ts';

/** Judges a run. `recorded`: what was read of a recorded load; the verdict rests on it. */
export function judge(
  scenario: Stated,
  demand: Demand,
  result: Result,
  recorded: RecordedLoad | null = null,
  stability: Stability = notLooked('not requested'),
  protection: Protection | null = null,
): Report {
  const c = caseOf(scenario, demand, result);
  const seen = seenOf(c, stability, protection);
  const { bands, grid } = seen;
  const findings = findingsOf(c, seen);
  const failure = result.failure === null ? null : failureWords(result.failure);
  const { audit, counters, window } = result;
  const outcome = outcomeOf({
    status: result.status,
    failure,
    time_s: window.to_s,
    log: result.log,
    spans: result.spans,
    sledCount: scenario.sleds.length,
    oscillation: oscillationOf(c),
  });
  const statement = askedOf(scenario);
  return concluded({
    schema_version: schemaVersion,
    tool_version: toolVersion,
    cautions: cautionsAt(scenario.nominal_V),
    seed: scenario.seed,
    scenario: { id: scenario.id, title: scenario.title, about: scenario.about },
    window_s: { from: window.from_s, to: window.to_s },
    left_out: leftOutIn(c.applies, window),
    status: result.status,
    failure,
    outcome,
    collapse: collapseOf(outcome, result.status, result.log),
    supply_collapse: suppliesLost(result.spans),
    findings,
    waivers: scenario.waivers,
    judged_on: scenario.judged_on ?? null,
    conditions: scenario.conditions,
    basis: basisOf(c, recorded, findings),
    metrics: metricsOf(c),
    bands: bands
      .slice(0, bandEdges_Hz.length)
      .map(({ band: { low_Hz, high_Hz, ripple_ratio } }) => ({ low_Hz, high_Hz, ripple_ratio })),
    grid,
    stability,
    responses: responsesOf(c),
    copper: copperOf(c),
    energy: {
      input_J: finite(audit.input_J),
      load_J: finite(audit.load_J),
      loss_J: finite(audit.loss_J),
      stored_J: finite(audit.stored_J),
      residual_ratio: finite(audit.residual_ratio),
      residual_loss_ratio: finite(audit.residual_loss_ratio),
      rows: audit.rows.filter((row) => Number.isFinite(row.energy_J)),
    },
    engine: {
      step_s: counters.step_s,
      steps: counters.steps,
      states: counters.states,
      nodes: counters.nodes,
      mode_retries: counters.mode_retries,
      wall_s: null,
      realtime_ratio: null,
    },
    ...(statement === undefined ? {} : { statement }),
    ...(protection === null ? {} : { protection }),
    inputs: [...scenario.inputs, ...scenario.changes.map((change) => ({ change }))],
    load: { bandwidth_Hz: demand.bandwidth_Hz, statement: demand.remarks ?? [] },
  });
}

function failureWords(failure: Failure): string {
  const last = Number.isFinite(failure.last_finite)
    ? `, last finite value ${numberText(failure.last_finite, '')}`
    : '';
  return `${failure.cause} at ${numberText(failure.time_s, 's')}, ${failure.name}${last}`;
}
