/** A run of the engine with a swing put in at a summing point: the lines that come of it, and who came to a clamp. */
import { advance } from '../../../engine/advance.ts';
import { type Cabinet, ready } from '../../../engine/cabinet.ts';
import { firmwareAgenda } from '../../../engine/firmware-agenda.ts';
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
import { lowestSled, stateOf } from '../settled.ts';
import type { InjectAsked } from './asked.ts';
import { type Clamp, ClampWatch } from './clamps.ts';
import { injectionAt, type Reading } from './drives.ts';
import { Lines } from './lines.ts';
import type { Swing } from './swing.ts';

/** What a reading is at a frequency over what was put in there. */
export interface Line {
  readonly curve: string;
  readonly frequency_Hz: number;
  readonly gain_dB: number;
  readonly phase_deg: number;
}

export interface Played {
  readonly swing: Swing;
  readonly amplitude: number;
  /** Otherwise clamps alone are looked for. */
  readonly isRead: boolean;
}

/** Steps of a cycle at least; the longest rung is this many times the step of a scenario (engine/ladder.ts). */
const stepsPerCycle = 64;
const longestRung = 20;

/** How far into the next step what is put in is that of the swing. */
const ahead = { 'when sampled': 0, 'through a step': 0.5, 'at its end': 1 } as const;

export function play(
  scenario: Scenario,
  asked: InjectAsked,
  { swing, amplitude, isRead }: Played,
): { readonly lines: readonly Line[]; readonly clamp: Clamp | null } {
  const { point, frequencies_Hz } = asked;
  const turned = { isOn: false };
  const value = (t_s: number): number => (turned.isOn ? amplitude * swing.at(t_s) : 0);
  const cabinet = cabinetUnder(scenario, asked, point === 'load' ? value : () => 0);
  const { stepper, network } = cabinet;
  const { tick_s } = network.scenario;
  const injection = injectionAt(point, cabinet, placesFor(cabinet, asked));
  const { readings } = injection;
  const watch = new ClampWatch(cabinet);
  const from = Math.round(swing.from_s / tick_s);
  const end = Math.round(swing.until_s / tick_s);
  // What was put in first, then the readings.
  const lines = new Lines(frequencies_Hz, 1 + readings.length, swing.weight);
  const [begins, ends] = [new Float64Array(1 + readings.length), new Float64Array(1 + readings.length)];
  const rest = readings.map((one) => one.read(stepper.x0, stepper.v0));
  const { acts } = injection;
  const isExact = point === 'load' || acts === 'when sampled';
  let [before, held] = [0, 0];
  turned.isOn = true;
  const { ending, tick } = advance(cabinet, firmwareAgenda(cabinet, 0), 0, end, {
    edge: () => {},
    step: (a, b) => {
      const [t0, t1] = [a * tick_s, b * tick_s];
      watch.step(t1);
      if (isRead && a >= from) {
        const began = acts === 'through a step' ? held : before;
        begins[0] = isExact ? value(t0) : injection.taken(began, stepper.v0);
        ends[0] = isExact ? value(t1) : injection.taken(held, stepper.v1);
        readings.forEach((one, k) => {
          begins[1 + k] = one.read(stepper.x0, stepper.v0) - rest[k]!;
          ends[1 + k] = one.read(stepper.x1, stepper.v1) - rest[k]!;
        });
        lines.between(t0, begins, t1, ends);
      }
      // What the swing has now, in the middle of the next step, or at its end, were it as long as this one.
      before = held;
      held = value(t1 + ahead[acts] * (t1 - t0));
      injection.put(held);
      return true;
    },
  });
  return {
    // Of a run that has ended nothing is read.
    lines:
      ending !== 'reached'
        ? []
        : readings.flatMap((reading, k) =>
            frequencies_Hz
              .map((_, n) => lineOf(reading, lines, k, n, frequencies_Hz))
              .filter(({ gain_dB, phase_deg }) => Number.isFinite(gain_dB + phase_deg)),
          ),
    clamp:
      ending === 'reached'
        ? watch.first(tick)
        : { who: 'the bus', what: 'lost, and the run with it', at_s: tick * tick_s },
  };
}

function lineOf(
  { curve, isLoop }: Reading,
  lines: Lines,
  k: number,
  n: number,
  frequencies_Hz: readonly number[],
): Line {
  const answer = over(lines.value(1 + k, n), lines.value(0, n));
  const value = isLoop ? over(answer, { re: 1 - answer.re, im: -answer.im }) : answer;
  return {
    curve,
    frequency_Hz: frequencies_Hz[n]!,
    gain_dB: decibels(value),
    phase_deg: phases_deg([value])[0]!,
  };
}

/** The cabinet settled in its state, with a swing on the load that begins when it is let on. */
function cabinetUnder(
  scenario: Scenario,
  { load_W, frequencies_Hz, state_count = 0 }: InjectAsked,
  swing_W: (t_s: number) => number,
): Cabinet {
  const standing = standingAfter(scenario, stateOf(scenario, state_count));
  const straight = straightened(withSignals(scenario, standing.events), load_W);
  const { tick_s } = straight;
  const longest_s = 1 / (frequencies_Hz.at(-1)! * stepsPerCycle);
  const finest = tick_s * Math.max(1, Math.floor(longest_s / longestRung / tick_s));
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
