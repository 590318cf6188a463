/** From a result to the report: metrics, bands, findings, verdict. Wall time is not known here. */
import type { Failure, Result } from '../engine/result.ts';
import { notLooked, type Stability } from '../linear/stability.ts';
import type { Demand } from '../loads/demand.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { toolVersion } from '../version.ts';
import { acBands } from './ac-side.ts';
import { type BandEdges, bandEdges_Hz } from './bands.ts';
import { caseOf } from './case.ts';
import { findingsOf } from './findings.ts';
import { finite } from './finite.ts';
import { gridOf } from './grid/grid-of.ts';
import { metricsOf } from './metrics.ts';
import { numberText } from './number-text.ts';
import { outcomeOf } from './outcome.ts';
import type { Report } from './report.ts';
import { summaryOf, verdictOf } from './verdict.ts';

export const schemaVersion = 2;

/** Judges a run. The statement says what a recorded load is and what was done to it. */
export function judge(
  scenario: Scenario,
  demand: Demand,
  result: Result,
  statement: readonly string[] = [],
  stability: Stability = notLooked('nobody asked for it'),
): Report {
  const c = caseOf(scenario, demand, result);
  const edges = edgesOf(scenario);
  const bands = acBands(c, edges);
  const grid = gridOf(c);
  const findings = findingsOf(c, { bands, grid, stability });
  const verdict = verdictOf(result.status, findings, scenario.conditions);
  const failure = result.failure === null ? null : failureWords(result.failure);
  const { audit, counters, window } = result;
  return {
    schema_version: schemaVersion,
    tool_version: toolVersion,
    seed: scenario.seed,
    scenario: { id: scenario.id, title: scenario.title, about: scenario.about },
    window_s: { from: window.from_s, to: window.to_s },
    status: result.status,
    failure,
    verdict,
    outcome: outcomeOf({
      status: result.status,
      failure,
      time_s: window.to_s,
      log: result.log,
      events: scenario.events,
      sledCount: scenario.sleds.length,
    }),
    summary: summaryOf(result.status, failure, verdict, findings),
    findings,
    waivers: scenario.waivers,
    ...(scenario.judged_on === undefined ? {} : { judged_on: scenario.judged_on }),
    conditions: scenario.conditions,
    basis: [],
    metrics: metricsOf(c),
    bands: bands
      .slice(0, bandEdges_Hz.length)
      .map(({ band: { low_Hz, high_Hz, ripple_ratio } }) => ({ low_Hz, high_Hz, ripple_ratio })),
    grid,
    stability,
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
    inputs: [...scenario.inputs, ...scenario.changes.map((change) => ({ change }))],
    load: { bandwidth_Hz: demand.bandwidth_Hz, statement },
  };
}

/** The bands reported in every run, then those that only a limit names. */
function edgesOf(scenario: Scenario): BandEdges[] {
  const edges = [...bandEdges_Hz];
  for (const { quantity, band_Hz } of scenario.limits) {
    if (quantity !== 'ac-band-ripple' || band_Hz === null) continue;
    if (!edges.some(([low, high]) => low === band_Hz[0] && high === band_Hz[1])) edges.push(band_Hz);
  }
  return edges;
}

function failureWords(failure: Failure): string {
  const last = Number.isFinite(failure.last_finite)
    ? `, last finite value ${numberText(failure.last_finite, '')}`
    : '';
  return `${failure.cause} at ${numberText(failure.time_s, 's')}, ${failure.name}${last}`;
}
