/** The shape of a statement on a specification, in a run's report. The compiler holds it to `Statement`. */
import type { AskedRequirement, ShownIn, Statement } from '../analysis/statement/line.ts';
import * as is from './shape.ts';

const numberOrNull = is.orNull(is.finite);
const textOrNull = is.orNull(is.text);
const texts = is.listOf(is.text);
const column = is.oneOf('normal', 'carry', 'degraded');

const requirement: is.Shape<AskedRequirement> = is.record({
  clause: is.text,
  words: is.text,
  metric: is.text,
  bound: is.text,
  applies: is.text,
  source: is.text,
  file: is.text,
  line: is.count,
  judged: is.orNull(
    is.record({
      limit: is.text,
      columns: is.listOf(column),
      value: is.finite,
      stay_s: numberOrNull,
      band_Hz: is.orNull(is.pairOf(is.finite)),
      side: is.oneOf('upper', 'lower'),
      unit: is.text,
      per_unit: is.finite,
    }),
  ),
  shown_by: is.text,
  SI_per_unit: numberOrNull,
  altered: textOrNull,
});

const shown: is.Shape<ShownIn> = is.record({
  run: is.text,
  column,
  state: is.oneOf('met', 'not_met', 'open', 'not_arisen'),
  value: numberOrNull,
  margin: numberOrNull,
  node: textOrNull,
  time_s: numberOrNull,
  conditions: texts,
  because: textOrNull,
});

export const statementShape: is.Shape<Statement> = is.record({
  file: is.text,
  title: is.text,
  runs: texts,
  carries: is.truth,
  conditions: texts,
  lines: is.listOf(
    is.record({
      requirement,
      state: is.oneOf('met', 'met_with_conditions', 'not_met', 'open'),
      worst: is.orNull(shown),
      shown: is.listOf(shown),
      not_shown: is.listOf(column),
      conditions: texts,
      because: textOrNull,
    }),
  ),
});
