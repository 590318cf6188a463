/** The report of a response study: what is kept, printed with `--json` and shown. */
import type { Scenario } from '../../scenario/scenario.ts';
import { headOf, type StudyHead } from '../head.ts';
import type { LaidPoint } from './points.ts';
import type { Response, ResponseCurve } from './respond.ts';

export interface ResponseReport extends StudyHead, Response {
  /** Points of the user's own, each beside the model; none where none were laid over. */
  readonly measured: readonly LaidPoint[];
}

export function responseReport(
  scenario: Scenario,
  { load_W, nodes, shelf, states, rung_s, warping_ratio, remarks, ...found }: Response,
  measured: readonly LaidPoint[] = [],
): ResponseReport {
  return {
    ...headOf(
      {
        id: scenario.id,
        kind: 'response',
        title: `Response of ${scenario.title}`,
        about: `linear, about rest at ${(load_W / 1e3).toFixed(1)} kW`,
      },
      [...scenario.inputs, ...scenario.changes.map((change) => ({ change }))],
    ),
    ...{ load_W, nodes, shelf, states, rung_s, warping_ratio, remarks },
    measured,
    ...found,
  };
}

/** Responses and impedances: the curves that are no loop gain. */
export function plainCurves({ curves, loops, minor_loops }: Response): readonly ResponseCurve[] {
  return curves.slice(0, curves.length - loops.length - minor_loops.length);
}
