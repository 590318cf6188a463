/**
 * A sine put into a run of the engine at a summing point, and what comes of it read back over whole cycles, as on a bench. The
 * cabinet is the one that the linear curves are about: steps without a slope (dead band, quanta) are left out, clamps are in.
 */
import { sine } from '../../../base/sine.ts';
import { stageMode } from '../../../devices/stage/stage.ts';
import { advance, firmwareAgenda } from '../../../engine/advance.ts';
import { type Cabinet, ready } from '../../../engine/cabinet.ts';
import { over } from '../../../linear/complex.ts';
import { decibels, phases_deg } from '../../../linear/decibels.ts';
import { standingAfter } from '../../../linear/lasting.ts';
import { comeToRest, straightened } from '../../../linear/rest.ts';
import { standAs } from '../../../linear/standing.ts';
import { withSignals } from '../../../linear/with-signals.ts';
import type { Demand } from '../../../loads/demand.ts';
import { makeDemand } from '../../../loads/make-demand.ts';
import { assemble } from '../../../network/network.ts';
import type { Scenario } from '../../../scenario/scenario.ts';
import { unknownName } from '../places.ts';
import { lowestSled, type SettledAsked, stateOf } from '../settled.ts';
import { injectionAt, type SummingPoint } from './drives.ts';
import { SineSum } from './sine-sum.ts';

export interface InjectAsked extends SettledAsked {
  readonly point: SummingPoint;
  readonly frequency_Hz: number;
  /** Height of the sine, W or V. */
  readonly amplitude: number;
  /** How many times the amplitude clamps are looked for up to; 0: they are not looked for. */
  readonly clamps_within: number;
}

/** The shelf that first came to a clamp, and when after the sine began. */
export interface Clamp {
  readonly who: string;
  readonly at_s: number;
}

export interface Injected {
  readonly point: SummingPoint;
  readonly frequency_Hz: number;
  readonly amplitude: number;
  readonly curves: readonly {
    readonly curve: string;
    readonly gain_dB: number;
    readonly phase_deg: number;
  }[];
  /** Null where no shelf came to a clamp: the points are those of a small signal. */
  readonly clamp: Clamp | null;
  /** The least amplitude at which one does, within a sixteenth, and the largest that was tried; null where not asked. */
  readonly clamps: {
    readonly from: number | null;
    readonly tried: number;
    readonly clamp: Clamp | null;
  } | null;
}

/** Before the cycles that are read, and they themselves: as long as this, or as many cycles [s]. */
const settling = { least_s: 0.1, cycles: 2 } as const;
const reading = { least_s: 0.1, cycles: 4 } as const;
/** Where clamps are looked for nothing is read: this long, or as many cycles. */
const clamping = { least_s: 5e-3, cycles: 4 } as const;

/** Steps of a cycle at least; the longest rung is this many times the step of a scenario (engine/ladder.ts). */
const stepsPerCycle = 64;
const longestRung = 20;

/** Halvings after the doubling that found a clamp. */
const halvings = 4;

/** Throws BadInput where there is no settled point, and where what is moved does not run. */
export function inject(scenario: Scenario, asked: InjectAsked): Injected {
  const { point, frequency_Hz, amplitude } = asked;
  const read = playSine(scenario, asked, amplitude, 'read');
  return {
    ...{ point, frequency_Hz, amplitude },
    curves: read.curves,
    clamp: read.clamp,
    clamps: asked.clamps_within > 0 ? clampsFrom(scenario, asked) : null,
  };
}

/** Doubles the amplitude until a shelf comes to a clamp, then halves the way back. */
function clampsFrom(scenario: Scenario, asked: InjectAsked): NonNullable<Injected['clamps']> {
  const clampAt = (amplitude: number): Clamp | null => playSine(scenario, asked, amplitude, 'clamps').clamp;
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

function playSine(
  scenario: Scenario,
  asked: InjectAsked,
  amplitude: number,
  how: 'read' | 'clamps',
): Pick<Injected, 'curves' | 'clamp'> {
  const { point, frequency_Hz } = asked;
  const omega = 2 * Math.PI * frequency_Hz;
  const swing = { isOn: false };
  const sineAt = (t_s: number): number => (swing.isOn ? amplitude * sine(omega * t_s) : 0);
  const cabinet = cabinetUnder(scenario, asked, point === 'load' ? sineAt : () => 0);
  const { network, stepper } = cabinet;
  const { tick_s } = network.scenario;
  const injection = injectionAt(point, cabinet, placesFor(cabinet, asked));
  const length = (of: { readonly least_s: number; readonly cycles: number }): number =>
    Math.ceil(Math.max(of.least_s * frequency_Hz, of.cycles)) / frequency_Hz;
  const from = how === 'read' ? Math.round(length(settling) / tick_s) : 0;
  const end = from + Math.round(length(how === 'read' ? reading : clamping) / tick_s);
  const put = new SineSum(frequency_Hz);
  const sums = injection.readings.map(() => new SineSum(frequency_Hz));
  const rest = injection.readings.map((one) => one.read(stepper.x0, stepper.v0));
  let clamp: Clamp | null = null;
  const isThrough = injection.acts === 'through a step';
  let [before, held] = [0, 0];
  swing.isOn = true;
  const { ending } = advance(cabinet, firmwareAgenda(cabinet, 0), 0, end, {
    edge: () => {},
    step: (a, b) => {
      const [t0, t1] = [a * tick_s, b * tick_s];
      clamp ??= clampIn(cabinet, t1);
      if (how === 'clamps' && clamp !== null) return false;
      if (a >= from) {
        if (point === 'load') put.between(t0, sineAt(t0), t1, sineAt(t1));
        else {
          const began = isThrough ? held : before;
          put.between(t0, injection.taken(began, stepper.v0), t1, injection.taken(held, stepper.v1));
        }
        injection.readings.forEach((one, k) => {
          const [x0, x1] = [one.read(stepper.x0, stepper.v0), one.read(stepper.x1, stepper.v1)];
          sums[k]!.between(t0, x0 - rest[k]!, t1, x1 - rest[k]!);
        });
      }
      // What the sine has in the middle of the next step, or at its end, were it as long as this one.
      before = held;
      held = sineAt(t1 + (isThrough ? 0.5 : 1) * (t1 - t0));
      injection.put(held);
      return true;
    },
  });
  // What leaves the bounds has found its limits, though no stage told of a clamp.
  if (ending !== 'reached' && clamp === null) clamp = { who: 'the cabinet', at_s: end * tick_s };
  const curves = injection.readings.map(({ curve, isLoop }, k) => {
    const answer = over(sums[k]!.value, put.value);
    const value = isLoop ? over(answer, { re: 1 - answer.re, im: -answer.im }) : answer;
    return { curve, gain_dB: decibels(value), phase_deg: phases_deg([value])[0]! };
  });
  return { curves, clamp };
}

/** The cabinet settled in its state, with a swing on the load that begins when it is let on. */
function cabinetUnder(scenario: Scenario, asked: InjectAsked, swing_W: (t_s: number) => number): Cabinet {
  const { load_W, frequency_Hz } = asked;
  const standing = standingAfter(scenario, stateOf(scenario, asked.state_count ?? 0));
  const straight = straightened(withSignals(scenario, standing.events), load_W);
  const { tick_s } = straight;
  const finest = tick_s * Math.max(1, Math.floor(1 / (frequency_Hz * stepsPerCycle * longestRung) / tick_s));
  const fine = { ...straight, step_s: Math.min(straight.step_s, finest) };
  return comeToRest(fine, load_W, (of) => {
    const constant = makeDemand(of);
    const demand: Demand = {
      ...constant,
      at: (out, tick) => {
        constant.at(out, tick);
        const more = swing_W(tick * tick_s);
        for (let k = 0; k < out.length; k++) out[k]! += more;
      },
    };
    return ready(assemble(of), demand, 1, 'fast', {
      smoothed_W: null,
      arrange: (built) => standAs(built, standing),
    });
  });
}

function placesFor(
  { network, stepper }: Cabinet,
  { nodes = [], shelf = null, point }: InjectAsked,
): { readonly node: number; readonly shelf: number } {
  const { stages, shelfCount } = network;
  const names = network.topology.nodes;
  const node = names.indexOf(nodes[0] ?? lowestSled(network.sleds, stepper.v0));
  if (node < 0) throw unknownName('node', nodes[0]!, names);
  const running = stages.names.filter((_, k) => k < shelfCount && stages.running[k] === 1);
  const own = shelf ?? running[0];
  if (point !== 'set points' && point !== 'load' && (own === undefined || !running.includes(own)))
    throw unknownName('running shelf', own ?? 'a shelf', running);
  return { node, shelf: own === undefined ? -1 : stages.names.indexOf(own) };
}

/** The first shelf that gives power whose stage is not in its linear range. */
function clampIn({ network: { stages, shelfCount, packs } }: Cabinet, at_s: number): Clamp | null {
  for (let k = 0; k < stages.count; k++) {
    const gives = stages.running[k] === 1 && (k < shelfCount || k >= packs.firstStage);
    if (gives && stages.mode[k] !== stageMode.linear) return { who: stages.names[k]!, at_s };
  }
  return null;
}
