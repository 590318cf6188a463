/** The report of a response study: what is kept, printed with `--json` and shown. */
import type { Margins } from '../../linear/margins.ts';
import type { Mode } from '../../linear/modes.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { headOf, type StudyHead } from '../head.ts';
import type { Curve } from './curve.ts';
import type { MinorLoop } from './minor-loop.ts';
import type { LaidPoint } from './points.ts';
import type { Loop, Response } from './response.ts';

export interface ResponseReport
  extends StudyHead,
    Omit<Response, 'curves' | 'loops' | 'minorLoops' | 'modes'> {
  /** Responses, loop gains and minor loops alike. */
  readonly curves: readonly (Omit<Curve, 'gain_dB'> & { readonly gain_dB: readonly (number | null)[] })[];
  readonly loops: readonly (Margins & Pick<Loop, 'name' | 'about'>)[];
  /** Points of the user's own, each beside the model; none where none were laid over. */
  readonly measured: readonly LaidPoint[];
  readonly minor_loops: readonly Omit<MinorLoop, 'curve'>[];
  readonly modes: readonly (Omit<Mode, 'time_constant_s'> & { readonly time_constant_s: number | null })[];
}

export function responseReport(
  scenario: Scenario,
  response: Response,
  measured: readonly LaidPoint[] = [],
): ResponseReport {
  const { loops, minorLoops, curves, modes, ...rest } = response;
  const all = [...curves, ...loops.map(({ curve }) => curve), ...minorLoops.map(({ curve }) => curve)];
  return {
    ...headOf(
      {
        id: scenario.id,
        kind: 'response',
        title: `Response of ${scenario.title}`,
        about: `linear, about rest at ${(response.load_W / 1e3).toFixed(1)} kW`,
      },
      [...scenario.inputs, ...scenario.changes.map((change) => ({ change }))],
    ),
    ...rest,
    measured,
    curves: all.map((curve) => ({ ...curve, gain_dB: curve.gain_dB.map(finite) })),
    loops: loops.map(({ curve: _, ...loop }) => loop),
    minor_loops: minorLoops.map(({ curve: _, ...loop }) => loop),
    modes: modes.map((mode) => ({ ...mode, time_constant_s: finite(mode.time_constant_s) })),
  };
}

/** JSON has no infinity. */
function finite(x: number): number | null {
  return Number.isFinite(x) ? x : null;
}
