/** One look at the share loop in time, dead band, quantum, clamps and modes on. */
import { advance } from '../../engine/advance.ts';
import { ready } from '../../engine/cabinet.ts';
import { firmwareAgenda } from '../../engine/firmware-agenda.ts';
import { makeDemand } from '../../loads/make-demand.ts';
import { assemble } from '../../network/network.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { type AtLoad, underConstant } from '../settled-load.ts';
import { type Happening, happenings } from './happenings.ts';

/** What is to happen once the cabinet has settled, and how long it is watched from then on. */
export interface ShareAsked extends AtLoad {
  readonly happens: Happening | null;
  readonly look_s: number;
}

/** How the shelves share in the end. */
export interface Sharing {
  /** Largest deviation of a running shelf from the mean of all, both over the last second, over rated: no instant of a cycle. */
  readonly error_ratio: number;
  /** Time until every shelf stays within 1 % of rated, and its cycle, of where it ends; null when never. */
  readonly settling_s: number | null;
  /** Peak to peak of the busiest shelf's current over the last second, over rated: a limit cycle where it is not 0. */
  readonly cycle_ratio: number;
  /** Largest trim at the end over its clamp. */
  readonly trim_ratio: number;
  readonly bus_V: number;
}

const begin_s = 0.5;
const sample_s = 0.01;
const near_ratio = 0.01;

/** The cabinet settles whole, something happens, then it is watched. Throws BadInput where there is no operating point. */
export function watchSharing(scenario: Scenario, { load_W, happens, look_s }: ShareAsked): Sharing {
  const { before, begins } = happens === null ? {} : happenings[happens];
  const end_s = begin_s + look_s;
  const at = underConstant(scenario, load_W);
  const cabinet = ready(assemble(at), makeDemand(at), 1);
  const { network, stepper, controls } = cabinet;
  const { stages, shelfCount } = network;
  const ticks = (s: number): number => Math.round(s / at.tick_s);
  const agenda = firmwareAgenda(cabinet, 0);
  before?.(cabinet, 0);
  advance(cabinet, agenda, 0, ticks(begin_s), null);
  begins?.(cabinet, ticks(begin_s));
  cabinet.ladder.kick(Number.POSITIVE_INFINITY);
  const rows: Float64Array[] = [];
  const per = (k: number): number => stages.perUnit(k, stepper.x0);
  for (let s = begin_s; s < end_s - 1e-9; s += sample_s) {
    advance(cabinet, agenda, ticks(s), ticks(s + sample_s), null);
    rows.push(Float64Array.from({ length: shelfCount }, (_, k) => per(k)));
  }
  const running = Array.from({ length: shelfCount }, (_, k) => k).filter((k) => stages.running[k] === 1);
  const tail = rows.slice(-Math.round(1 / sample_s));
  const cycle = Math.max(
    ...running.map((k) => Math.max(...tail.map((row) => row[k]!)) - Math.min(...tail.map((row) => row[k]!))),
  );
  const rest = Array.from(
    { length: shelfCount },
    (_, k) => tail.reduce((sum, row) => sum + row[k]!, 0) / tail.length,
  );
  const mean = running.reduce((sum, k) => sum + rest[k]!, 0) / running.length;
  const isNear = (row: Float64Array): boolean =>
    running.every((k) => Math.abs(row[k]! - rest[k]!) < near_ratio + cycle);
  let settled = rows.length;
  while (settled > 0 && isNear(rows[settled - 1]!)) settled--;
  return {
    error_ratio: Math.max(...running.map((k) => Math.abs(rest[k]! - mean))),
    settling_s: settled >= rows.length - 2 ? null : settled * sample_s,
    cycle_ratio: cycle,
    trim_ratio: Math.max(
      ...running.map((k) => Math.abs(controls.share.trim_V[k]!) / at.firmware.share.trim_limit_V),
    ),
    bus_V: Math.min(...running.map((k) => stepper.v0[stages.node[k]!]!)),
  };
}
