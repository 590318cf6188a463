/** The responses of a run in a row a unit: the worst of all its steps, and how long each limit held it. */
import type { Case } from '../record/case.ts';
import { type Answer, type Answering, answersOf, type Watched, watchedOf } from './responses.ts';

/** A deviation: in the quantity's unit, and over the change where the quantity ends elsewhere than it began. */
export interface Excursion {
  readonly value: number;
  readonly ratio: number | null;
  /** The step after which it came [s]. */
  readonly step_s: number;
}

/** How long the slowest step took; null: one had not settled when the next step or the end came. */
export interface Settled {
  readonly time_s: number | null;
  readonly step_s: number;
}

export interface UnitResponse {
  readonly kind: Answering;
  /** The unit; of the bus the sled node that fell lowest. */
  readonly unit: string;
  readonly quantity: Watched['quantity'];
  /** Steps after which it moved by 1 % of its rating, the bus by 0.1 % of nominal. Without one the next four are null. */
  readonly moved_count: number;
  readonly overshoot: Excursion | null;
  readonly undershoot: Excursion | null;
  /** To within 5 % and 2 % of the largest deviation from where it ends. */
  readonly settling_5: Settled | null;
  readonly settling_2: Settled | null;
  /** Shares of the judged window at each limit that held it, by the words of spans. */
  readonly at_limit: readonly { readonly limit: string; readonly share_ratio: number }[];
}

export interface Responses {
  /** Edges and events of which the record tells enough before and after. */
  readonly steps_count: number;
  /** Times are exact to this: the widest bucket of the record between the first of these steps and the end. */
  readonly resolution_s: number | null;
  readonly units: readonly UnitResponse[];
}

export function responsesOf(c: Pick<Case, 'scenario' | 'result' | 'story'>): Responses {
  const answers = answersOf(c);
  const steps = [...new Set(answers.map(({ step }) => step))];
  const { edges_s, bucketCount } = c.result.recording;
  let widest_s = 0;
  for (let k = 0; k < bucketCount; k++)
    if (edges_s[k]! >= (steps[0]?.at_s ?? Number.POSITIVE_INFINITY))
      widest_s = Math.max(widest_s, edges_s[k + 1]! - edges_s[k]!);
  return {
    steps_count: steps.length,
    resolution_s: steps.length === 0 ? null : widest_s,
    units: watchedOf(c).map((one) =>
      unitResponse(
        one,
        answers.filter(({ channel }) => channel === one.channel),
        limitsOf(c, one.unit),
      ),
    ),
  };
}

function unitResponse(
  { kind, unit, quantity }: Watched,
  answers: readonly Answer[],
  at_limit: UnitResponse['at_limit'],
): UnitResponse {
  const moved = answers.flatMap(({ step, response }) =>
    response === null ? [] : [{ step_s: step.at_s, response }],
  );
  type Moved = (typeof moved)[number];
  const largest = (of: (one: Moved) => number): Moved | null =>
    moved.reduce<Moved | null>((most, one) => (most === null || of(one) > of(most) ? one : most), null);
  const settled = (of: (one: Moved) => number | null): Settled | null => {
    const slowest = largest((one) => of(one) ?? Number.POSITIVE_INFINITY);
    return slowest === null ? null : { time_s: of(slowest), step_s: slowest.step_s };
  };
  const over = largest(({ response }) => response.overshoot);
  const under = largest(({ response }) => response.undershoot);
  return {
    kind,
    unit,
    quantity,
    moved_count: moved.length,
    overshoot: over && {
      value: over.response.overshoot,
      ratio: over.response.overshoot_ratio,
      step_s: over.step_s,
    },
    undershoot: under && {
      value: under.response.undershoot,
      ratio: under.response.undershoot_ratio,
      step_s: under.step_s,
    },
    settling_5: settled(({ response }) => response.settling_5_s),
    settling_2: settled(({ response }) => response.settling_2_s),
    at_limit,
  };
}

/** Of what chattered the time that was counted, spread evenly over its span. */
function limitsOf({ result }: Pick<Case, 'result'>, unit: string): UnitResponse['at_limit'] {
  const { from_s, to_s } = result.window;
  const held = new Map<string, number>();
  for (const span of result.spans) {
    if (span.kind !== 'at-limit' || span.who !== unit || !(span.to_s > span.from_s)) continue;
    const inside_s = Math.min(span.to_s, to_s) - Math.max(span.from_s, from_s);
    if (!(inside_s > 0)) continue;
    const part = inside_s / (span.to_s - span.from_s);
    held.set(span.what, (held.get(span.what) ?? 0) + part * span.held_s);
  }
  return [...held].map(([limit, time_s]) => ({ limit, share_ratio: time_s / (to_s - from_s) }));
}
