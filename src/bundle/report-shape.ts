/**
 * The shape of `report.json`. The compiler holds it to `Report`: a field that is added there is missed here. Whether what it
 * says is true it cannot tell: sums find accidents, and a run made again finds what was edited.
 */
import { type Finding, type Metrics, type Report, schemaVersion } from '../analysis/judge/report.ts';
import type { Stability } from '../linear/stability.ts';
import { copperShape } from './copper-shape.ts';
import { gridShape } from './grid-shape.ts';
import { measuredShape } from './measured-shape.ts';
import { monitoringShape } from './monitoring-shape.ts';
import { protectionShape } from './protection-shape.ts';
import { responsesShape } from './responses-shape.ts';
import * as is from './shape.ts';
import { statementShape } from './statement-shape.ts';

const numberOrNull = is.orNull(is.finite);
const textOrNull = is.orNull(is.text);
const texts = is.listOf(is.text);

const finding: is.Shape<Finding> = is.record({
  id: is.text,
  title: is.text,
  source: is.text,
  column: is.oneOf('normal', 'carry', 'degraded'),
  verdict: is.oneOf('pass', 'fail', 'inconclusive', 'not_applicable', 'waived'),
  waived_from: is.orNull(is.oneOf('fail', 'inconclusive')),
  value: numberOrNull,
  limit: numberOrNull,
  unit: is.text,
  headroom_ratio: numberOrNull,
  node: textOrNull,
  time_s: numberOrNull,
  duration_s: numberOrNull,
  count: is.orNull(is.count),
  doubt_ratio: numberOrNull,
  within_doubt: is.truth,
  bracket: is.orNull(is.pairOf(is.finite)),
  share_seen_ratio: numberOrNull,
  worst_outside: is.orNull(is.record({ value: is.finite, time_s: numberOrNull, reason: is.text })),
  reason: textOrNull,
  chain: texts,
});

const metrics: is.Shape<Metrics> = is.record({
  bus_min_V: numberOrNull,
  bus_max_V: numberOrNull,
  shelf_current_max_A: numberOrNull,
  share_error_steady_ratio: numberOrNull,
  share_error_transient_ratio: numberOrNull,
  ac_power_mean_W: numberOrNull,
  ac_power_ripple_ratio: numberOrNull,
  ac_ramp_100ms_W_per_s: numberOrNull,
  ac_ramp_1s_W_per_s: numberOrNull,
  ac_line_current_rms_A: numberOrNull,
  tray_soc_min_ratio: numberOrNull,
  tray_soc_max_ratio: numberOrNull,
  tray_capacitor_current_rms_A: numberOrNull,
  battery_starts_count: is.count,
  link_bar_current_max_A: numberOrNull,
});

const point = is.record({
  load_W: is.finite,
  from_s: is.finite,
  carrying: texts,
  stopped: texts,
  mode: is.orNull(
    is.record({
      frequency_Hz: is.finite,
      damping_ratio: is.finite,
      growth_per_s: is.finite,
      owners: is.listOf(is.record({ name: is.text, share_ratio: is.finite })),
    }),
  ),
});

const stability: is.Shape<Stability> = is.record({
  points: is.listOf(point),
  worst: is.orNull(point),
  not_looked: texts,
});

const energy: is.Shape<Report['energy']> = is.record({
  input_J: numberOrNull,
  load_J: numberOrNull,
  loss_J: numberOrNull,
  stored_J: numberOrNull,
  residual_ratio: numberOrNull,
  residual_loss_ratio: numberOrNull,
  rows: is.listOf(
    is.record({
      owner: is.text,
      cause: is.text,
      kind: is.oneOf('input', 'load', 'loss', 'stored'),
      energy_J: is.finite,
    }),
  ),
});

const waiver = is.record({ limit: is.text, reason: is.text, by: textOrNull, until: textOrNull });

const basisEntry = is.record({
  kind: is.oneOf(
    'rule',
    'assumed',
    'changed',
    'limits',
    'waived',
    'stated',
    'shortened',
    'unserved',
    'chosen',
    'repeated',
    'warned',
  ),
  what: is.text,
  by: textOrNull,
  reason: textOrNull,
  since: textOrNull,
  conditions: is.truth,
});

/** A file by its sum, or a change. */
const input: is.Shape<Report['inputs'][number]> = (value, path) =>
  typeof value === 'object' && value !== null && 'change' in value
    ? is.record({ change: is.record({ path: is.text, value: is.text }) })(value, path)
    : is.record({ path: is.text, sha256: is.text })(value, path);

const written = is.record({
  schema_version: is.exactly(schemaVersion),
  tool_version: is.text,
  cautions: texts,
  seed: is.finite,
  scenario: is.record({ id: is.text, title: is.text, about: is.text }),
  window_s: is.record({ from: is.finite, to: is.finite }),
  left_out: is.listOf(
    is.record({ from_s: is.finite, to_s: is.finite, why: is.oneOf('ac-lost', 'walk-in', 'settling') }),
  ),
  status: is.oneOf('ok', 'collapsed', 'non_finite', 'audit_open', 'stopped'),
  failure: textOrNull,
  verdict: is.oneOf('pass', 'pass_with_conditions', 'fail', 'inconclusive'),
  outcome: is.record({
    kind: is.oneOf('steady', 'oscillating', 'degraded', 'recovered', 'tripped', 'collapsed'),
    because: is.text,
    chain: texts,
  }),
  collapse: textOrNull,
  supply_collapse: textOrNull,
  summary: is.text,
  findings: is.listOf(finding),
  waivers: is.listOf(waiver),
  judged_on: textOrNull,
  conditions: texts,
  basis: is.listOf(basisEntry),
  metrics,
  bands: is.listOf(is.record({ low_Hz: is.finite, high_Hz: is.finite, ripple_ratio: numberOrNull })),
  grid: gridShape,
  stability,
  responses: is.maybe(responsesShape),
  copper: is.maybe(copperShape),
  energy,
  engine: is.record({
    step_s: is.finite,
    steps: is.count,
    states: is.count,
    nodes: is.count,
    mode_retries: is.count,
    wall_s: numberOrNull,
    realtime_ratio: numberOrNull,
  }),
  inputs: is.listOf(input),
  statement: is.maybe(statementShape),
  measured: is.maybe(measuredShape),
  monitoring: is.maybe(monitoringShape),
  protection: is.maybe(protectionShape),
  load: is.record({ bandwidth_Hz: numberOrNull, statement: texts }),
});

export const reportShape: is.Shape<Report> = (value, path) => {
  const { measured, monitoring, protection, statement, responses, copper, ...rest } = written(value, path);
  return {
    ...rest,
    ...(responses === undefined ? {} : { responses }),
    ...(copper === undefined ? {} : { copper }),
    ...(statement === undefined ? {} : { statement }),
    ...(measured === undefined ? {} : { measured }),
    ...(monitoring === undefined ? {} : { monitoring }),
    ...(protection === undefined ? {} : { protection }),
  };
};
