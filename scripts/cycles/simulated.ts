/** What an element is given in a run, quanta, bands and limits at work: from a settled cabinet with a push. */
import { advance } from '../../src/engine/advance.ts';
import type { Cabinet } from '../../src/engine/cabinet.ts';
import { firmwareAgenda } from '../../src/engine/firmware-agenda.ts';
import type { LawRun } from '../../src/firmware/law-run.ts';
import { comeToRest } from '../../src/linear/rest.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';
import { fundamentalOf, type Swing } from './fundamental.ts';

/** What is recorded of the first shelf. */
export type Watched = 'trim' | 'share error' | 'current command' | 'sensed voltage' | 'slew';

export interface Run {
  readonly scenario: Scenario;
  readonly load_W: number;
  readonly watched: Watched;
  /** Put on the first shelf's current [A], or on its trim and off the second's [V]. */
  readonly push: number;
  /** The run, and from when on it is looked at [s]. */
  readonly length_s: number;
  readonly from_s: number;
  /** Amplitudes below this are rest. */
  readonly floor: number;
}

export interface Trace {
  readonly time_s: readonly number[];
  readonly value: readonly number[];
}

export function simulated(run: Run): Swing | null {
  const { time_s, value } = traced(run);
  const from = time_s.findIndex((t) => t >= run.from_s);
  return fundamentalOf(time_s.slice(from), value.slice(from), run.floor);
}

export function traced({ scenario, load_W, watched, push, length_s }: Run): Trace {
  const constant: Scenario = {
    ...scenario,
    load: { kind: 'constant', power_W: load_W },
    start: 'settled',
    events: [],
  };
  const cabinet = comeToRest(constant, load_W);
  const { stepper, network, ladder, controls } = cabinet;
  const { stages } = network;
  const { tick_s } = network.scenario;
  const [time_s, value]: [number[], number[]] = [[], []];
  const isTrim = watched === 'trim' || watched === 'share error';
  let now = 0;
  const record = (x: number): void => {
    time_s.push(now);
    value.push(x);
  };
  if (isTrim) {
    const cells = controls.share.expose()!.memory;
    cells[0]!.set(cells[0]!.get() + push);
    cells[1]!.set(cells[1]!.get() - push);
    controls.share.witness = (_, run, when) => {
      if (when === 'after') record(ofShare(watched, run, stages.columns.rated_A[0]!));
    };
  } else {
    stepper.x0[stages.offset]! += push;
  }
  if (watched === 'current command') {
    let before = 0;
    for (const task of controls.tasks) {
      if (!('isInner' in task) || task.isInner !== true) continue;
      (task as unknown as { witness: unknown }).witness = (_: string, run: LawRun, when: string) => {
        const x = (run.memory as Record<string, Float64Array>)['integral_A']![0]!;
        if (when === 'before') before = x;
        else {
          const q = (run.law['law'] as unknown as Record<string, Float64Array>)['integral_ratio']![0]!;
          // ξ ← (1 − q) ξ/(1 + q) + 2 q c/(1 + q), turned round.
          record((x * (1 + q) - (1 - q) * before) / (2 * q));
        }
      };
    }
  }
  const observer = {
    edge: () => {},
    step: (_: number, to: number) => {
      now = to * tick_s;
      if (watched === 'sensed voltage') record(stepper.v1[stages.node[0]!]!);
      if (watched === 'slew') record(beyondPresent_A(cabinet));
      return true;
    },
  };
  const agenda = firmwareAgenda(cabinet, 0);
  // Small swings look calm to the ladder: it is sent down again so often that it steps finely all along.
  const piece = Math.round((isTrim ? 1e-3 : 50e-6) / tick_s);
  const end = Math.round(length_s / tick_s);
  for (let tick = 0; tick < end; tick += piece) {
    if (!isTrim) ladder.kick(Number.POSITIVE_INFINITY);
    advance(cabinet, agenda, tick, tick + piece, observer);
  }
  return { time_s, value };
}

function ofShare(watched: Watched, { memory, input }: LawRun, rated_A: number): number {
  if (watched === 'trim') return (memory as Record<string, Float64Array>)['trim_V']![0]!;
  const y = (input as Record<string, Float64Array>)['current_ratio']!;
  return ((y[1]! - y[0]!) / 2) * rated_A;
}

/** K_p e + x − i of the first shelf [A]. */
function beyondPresent_A({ network: { stages }, stepper: { x1, v1 } }: Cabinet): number {
  const at = (state: string): number => x1[stages.place(state, 0)]!;
  const { columns } = stages;
  const sensed = v1[stages.node[0]!]! - 2 * at('delay_2_V');
  const e = stages.setPoint_V[0]! + stages.trim_V[0]! - columns.droop_ohm[0]! * at('droop_filter_A') - sensed;
  return columns.proportional_gain_A_per_V[0]! * e + at('integrator_A') - at('current_A');
}
