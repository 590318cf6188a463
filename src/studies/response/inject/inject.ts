/**
 * A sine or a chirp put into a run of the engine at a summing point, and what comes of it read back, as on a bench. The
 * cabinet is the one that the linear curves are about: steps without a slope (dead band, quanta) are left out, clamps are in.
 */
import type { Scenario } from '../../../scenario/scenario.ts';
import { judged_Hz } from '../../damping.ts';
import type { InjectAsked } from './asked.ts';
import type { Clamp } from './clamps.ts';
import { type Line, play } from './play.ts';
import { chirpSwing, type Swing, sineSwing } from './swing.ts';

/** A clamp with the frequency that was swung with then. */
export interface ClampMet extends Clamp {
  readonly frequency_Hz: number;
}

/** Where a run and a linear curve are not the same thing. */
export interface Doubtful {
  readonly frequency_Hz: number;
  readonly why: string;
}

export interface Injected extends Pick<InjectAsked, 'point' | 'frequencies_Hz' | 'sweep_s' | 'amplitude'> {
  readonly lines: readonly Line[];
  readonly doubtful: readonly Doubtful[];
  /** Null where nobody came to a clamp: the points are those of a small signal. */
  readonly clamp: ClampMet | null;
  /** The least amplitude at which somebody does, within a sixteenth, and the largest that was tried; null where not asked. */
  readonly clamps: {
    readonly from: number | null;
    readonly tried: number;
    readonly clamp: ClampMet | null;
  } | null;
}

/** Halvings after the doubling that found a clamp. */
const halvings = 4;

/** Throws BadInput where there is no settled point, and where what is moved does not run. */
export function inject(scenario: Scenario, asked: InjectAsked): Injected {
  const { point, frequencies_Hz, sweep_s, amplitude } = asked;
  const { lines, clamp } = swung(scenario, asked, amplitude, true);
  const clamps = asked.clamps_within > 0 ? clampsFrom(scenario, asked) : null;
  return {
    ...{ point, frequencies_Hz, sweep_s, amplitude, lines, clamp, clamps },
    doubtful: frequencies_Hz.flatMap((frequency_Hz) => {
      const why = doubtAt(scenario, frequency_Hz);
      return why === null ? [] : [{ frequency_Hz, why }];
    }),
  };
}

/** A sampled voltage loop's curve is a hold and a delay up to here, of its rate. */
const heldUpTo_ratio = 0.1;

/** Nearer to half a rate than this what is sampled is answered by its own image, at the same frequency and the same time. */
const nearHalf_ratio = 0.02;

function doubtAt({ shelves, firmware, trays }: Scenario, frequency_Hz: number): string | null {
  const loop_s = Math.max(0, ...shelves.map(({ values }) => values.loop_period_s));
  if (frequency_Hz * loop_s > heldUpTo_ratio)
    return 'above a tenth of the rate of the sampled voltage loops, which the curves take as a hold and a delay';
  const twice = 2 * frequency_Hz * firmware.smoothing.period_s;
  if (trays.length > 0 && Math.abs(twice - 1) < nearHalf_ratio)
    return 'half the rate of the smoothing: a run answers with the image too, which depends on when it samples';
  if (frequency_Hz > judged_Hz) return 'above 10 kHz, where the averaged model ends';
  return null;
}

/** Doubles the amplitude until somebody comes to a clamp, then halves the way back. */
function clampsFrom(scenario: Scenario, asked: InjectAsked): NonNullable<Injected['clamps']> {
  const clampAt = (amplitude: number): ClampMet | null => swung(scenario, asked, amplitude, false).clamp;
  let [free, high] = [0, asked.amplitude];
  let clamp = clampAt(high);
  while (clamp === null && 2 * high <= asked.clamps_within * asked.amplitude) {
    [free, high] = [high, 2 * high];
    clamp = clampAt(high);
  }
  if (clamp === null) return { from: null, tried: high, clamp: null };
  for (let k = 0; k < halvings; k++) {
    const middle = (free + high) / 2;
    const there = clampAt(middle);
    if (there === null) free = middle;
    else [high, clamp] = [middle, there];
  }
  return { from: high, tried: high, clamp };
}

function swung(
  scenario: Scenario,
  asked: InjectAsked,
  amplitude: number,
  isRead: boolean,
): { readonly lines: readonly Line[]; readonly clamp: ClampMet | null } {
  // A sled takes power and gives none.
  if (asked.point === 'load' && amplitude > asked.load_W)
    return {
      lines: [],
      clamp: { who: 'the load', what: 'zero', at_s: 0, frequency_Hz: asked.frequencies_Hz[0]! },
    };
  const swing = swingOf(asked, isRead);
  const { lines, clamp } = play(scenario, asked, { swing, amplitude, isRead });
  return {
    lines,
    clamp: clamp === null ? null : { ...clamp, frequency_Hz: swing.frequency_Hz(clamp.at_s) },
  };
}

function swingOf({ frequencies_Hz, sweep_s }: InjectAsked, isRead: boolean): Swing {
  const [low_Hz, high_Hz] = [frequencies_Hz[0]!, frequencies_Hz.at(-1)!];
  return sweep_s === null ? sineSwing(low_Hz, isRead) : chirpSwing(low_Hz, high_Hz, sweep_s);
}
