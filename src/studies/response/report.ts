/** The report of a response study: what is kept, printed with `--json` and shown. */
import type { Scenario } from '../../scenario/scenario.ts';
import { headOf, type StudyHead } from '../head.ts';
import type { Injected } from './inject/inject.ts';
import type { OverFound } from './over/found.ts';
import type { LaidPoint } from './points.ts';
import type { Response, ResponseCurve } from './respond.ts';

export interface ResponseReport extends StudyHead, Response {
  /** Points of the user's own, each beside the model; none where none were laid over. */
  readonly measured: readonly LaidPoint[];
  /** The worst margins over loads, states, parts and tolerances; null where none were looked for. */
  readonly over: OverFound | null;
  /** Sines, or a chirp, that were put into runs; their points are among `measured`. */
  readonly injected: readonly Injected[];
}

export function responseReport(
  scenario: Scenario,
  { load_W, state, nodes, shelf, states, rung_s, warping_ratio, emptying_per_s, remarks, ...found }: Response,
  {
    measured = [],
    over = null,
    injected = [],
  }: Partial<Pick<ResponseReport, 'measured' | 'over' | 'injected'>> = {},
): ResponseReport {
  return {
    ...headOf(
      {
        id: scenario.id,
        kind: 'response',
        title: `Response of ${scenario.title}`,
        about: `linear, about rest at ${(load_W / 1e3).toFixed(1)} kW${state.length === 0 ? '' : ` after ${state.join(', ')}`}`,
      },
      [...scenario.inputs, ...scenario.changes.map((change) => ({ change }))],
      [scenario.nominal_V],
    ),
    ...{ load_W, state, nodes, shelf, states, rung_s, warping_ratio, emptying_per_s, remarks },
    measured,
    over,
    injected,
    ...found,
  };
}

/** Responses and impedances: the curves that are no loop gain. */
export function plainCurves({ curves, loops, minor_loops }: Response): readonly ResponseCurve[] {
  return curves.slice(0, curves.length - loops.length - minor_loops.length);
}
