/**
 * What makes a sustained swing: the load, the line, the step of the trims, or nothing but the cabinet itself.
 *
 * load          the load's own demand turns as often and by enough (engine/meters/load-turns.ts)
 * line          at twice the line's frequency or a multiple of it, where rectifier power pulsates with the line, and no
 *               more than that pulsation can move
 * trim-quantum  quanta of the trims, up and down again: no faster than two share periods, and no more than three times
 *               quantum/(R_d + R_line), what one moves at rest
 * own           none of these: an instability, or a limit cycle against clamps
 */
import { highestImpedance_ohm } from '../../engine/meters/swing-meter.ts';
import type { SustainedSwing } from '../../engine/result.ts';
import { staticDroop_ohm } from '../../scenario/static-droop.ts';
import { type Case, ratedCurrent } from '../record/case.ts';

export type SwingCause = 'own' | 'load' | 'line' | 'trim-quantum';

/** A swing that the line drives lies within this of a multiple of twice its frequency. */
const onLine_ratio = 0.01;
const highestMultiple = 3;

/**
 * A quantum's swing over its move at rest, at most: a unit's own quantum and those of the N − 1 others against it make
 * 2(N − 1)/N, transients of the voltage loop half as much again.
 */
const quantumTransient = 3;

/** A period of two samples is measured to within this. */
const periodSlack = 1.05;

/** `unit`: what the swing is in. */
export function causeOf(c: Case, swing: SustainedSwing, owner: string, unit: 'V' | 'A' | 'W'): SwingCause {
  if (swing.driven_by !== null) return swing.driven_by;
  if (isOfLine(c, swing, unit)) return 'line';
  return isOfQuantum(c, swing, owner) ? 'trim-quantum' : 'own';
}

function isOfLine(c: Case, { swing, frequency_Hz }: SustainedSwing, unit: 'V' | 'A' | 'W'): boolean {
  const perUnit_A = { V: 1 / highestImpedance_ohm(c.scenario.nominal_V), A: 1, W: 1 / c.scenario.nominal_V }[
    unit
  ];
  if (swing * perUnit_A > pulsation_A(c)) return false;
  return c.scenario.feeders.some(({ values }) => {
    const pulse_Hz = 2 * values.frequency_Hz;
    const multiple = Math.round(frequency_Hz / pulse_Hz);
    return (
      multiple >= 1 &&
      multiple <= highestMultiple &&
      Math.abs(frequency_Hz - multiple * pulse_Hz) <= onLine_ratio * frequency_Hz
    );
  });
}

/** Pulsation of all shelves' power with the line, peak to peak at their ratings: p (1 − R cos 2ωt) each [A]. */
function pulsation_A({ scenario: { shelves } }: Case): number {
  return shelves.reduce((sum, { values }) => sum + 2 * values.line_ripple_ratio * ratedCurrent(values), 0);
}

function isOfQuantum(c: Case, { swing, frequency_Hz }: SustainedSwing, owner: string): boolean {
  const { share } = c.scenario.firmware;
  const unit = [...c.scenario.shelves, ...c.scenario.batteries].find(({ id }) => id === owner);
  if (unit === undefined || frequency_Hz > periodSlack / (2 * share.period_s)) return false;
  const { droop_ohm, integral_gain_A_per_Vs, proportional_gain_A_per_V } = unit.values;
  const own_ohm = staticDroop_ohm(droop_ohm, integral_gain_A_per_Vs, proportional_gain_A_per_V);
  const moves_A = share.trim_quantum_V / (own_ohm + share.path_resistance_ohm);
  return swing <= quantumTransient * moves_A;
}
