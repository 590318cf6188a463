/** Rule 13 continued: what the banks that are fitted must stand, and where they belong. */
import type { ReadScenario } from '../../scenario/read.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { busCapacitance_F, crossover_rad_per_s, droop_ohm } from './bus-facts.ts';
import type { EstimateLine } from './line.ts';
import { A, F, H, J, ohm, s, V } from './print.ts';
import type { LoadSwing } from './swing.ts';

type Bank = Scenario['banks'][number];

interface BankCase {
  readonly name: string;
  readonly read: ReadScenario;
  readonly swing: LoadSwing;
}

/** Precharged in this time (assumed: nobody waits long for a cabinet to come up, and a small resistor stands it). */
const precharge_s = 1;

/** One line each for the place, the first moment of an edge, the ripple of pulses and the way onto a live bus. */
export function bankChecks(cases: readonly BankCase[]): readonly EstimateLine[] {
  const first = cases[0];
  const bank = first?.read.scenario.banks[0];
  if (first === undefined || bank === undefined) return [];
  return [
    placeLine(first.read),
    ...cases.map((one) => edgeLine(one, bank)),
    ...cases.flatMap((one) => (one.swing.kind === 'pulses' ? [rippleLine(one, one.swing, bank)] : [])),
    inrushLine(first.read, bank),
  ];
}

function placeLine({ scenario }: ReadScenario): EstimateLine {
  const { banks, sections } = scenario;
  const total = banks.reduce((sum, { values }) => sum + values.capacitance_F, 0);
  const parts = sections.map(({ id, order }) => {
    const own = banks.filter((bank) => order.includes(bank.id));
    const C = own.reduce((sum, { values }) => sum + values.capacitance_F, 0);
    return { id, C, names: own.map((bank) => bank.id) };
  });
  const bare = parts.filter(({ C }) => C === 0).map(({ id }) => id);
  const words = parts.map(
    ({ id, C, names }) => `${id} ${F(C)}${names.length === 0 ? '' : ` (${names.join(', ')})`}`,
  );
  return {
    rule: 13,
    title: 'Banks: place',
    about: '',
    formula: 'a bank works through the bars before it: each section its even part, near the links',
    numbers: `${F(total)} over ${parts.length}: ${words.join(', ')}`,
    asks:
      bare.length === 0
        ? 'each section has one; the best place is found by simulation (--vary banks.move)'
        : `a bank for section ${bare.join(' and ')}`,
    trays: null,
  };
}

/** At most: as if shelves and trays did nothing yet, and all capacitors of the bus shared the edge. */
function edgeLine({ name, read, swing }: BankCase, { id, values }: Bank): EstimateLine {
  const { nominal_V } = read.scenario;
  const dI = (swing.high_W - swing.low_W) / nominal_V;
  const peak = (dI * values.capacitance_F) / busCapacitance_F(read.scenario);
  const r = values.esr_ohm + values.connection_ohm;
  const slope = `${H(values.esl_H)} × ${A(peak)}/${s(swing.edge_s)} = ${V(values.esl_H * (peak / swing.edge_s))}`;
  return {
    rule: 13,
    title: 'Banks: peak current, ESR, ESL',
    about: name,
    formula: 'at most I = ΔI C_k/C; initially R I + L I/t_r on top of the dip',
    numbers: `${id}: ${A(dI)} × ${F(values.capacitance_F)}/${F(busCapacitance_F(read.scenario))} = ${A(peak)}; ${ohm(r)} × ${A(peak)} = ${V(r * peak)}, ${slope}`,
    asks: `fuse and terminals for ${A(peak)} each edge`,
    trays: null,
  };
}

/** Each edge moves the bank by the droop and dies away with 1/ω_c: ∫i² dt = (C R_d ΔI)² ω_c/2, twice a period. */
function rippleLine(
  { name, read: { scenario } }: BankCase,
  swing: Extract<LoadSwing, { kind: 'pulses' }>,
  { id, values }: Bank,
): EstimateLine {
  const dV = (droop_ohm(scenario) * (swing.high_W - swing.low_W)) / scenario.nominal_V;
  const rms = values.capacitance_F * dV * Math.sqrt(crossover_rad_per_s(scenario) / swing.period_s);
  const rating = values.ripple_current_rating_A;
  return {
    rule: 13,
    title: 'Banks: ripple',
    about: name,
    formula: 'I = C_k R_d ΔI √(ω_c/T): two edges a period, each moving the bank by the droop',
    numbers: `${id}: ${F(values.capacitance_F)} × ${V(dV)} × √(ω_c/${s(swing.period_s)}) = ${A(rms)} against ${A(rating)}`,
    asks: rms <= rating ? 'nothing more' : `${Math.ceil(rms / rating)} such banks`,
    trays: null,
  };
}

function inrushLine({ scenario: { nominal_V } }: ReadScenario, { id, values }: Bank): EstimateLine {
  const r = values.esr_ohm + values.connection_ohm;
  const R = precharge_s / (5 * values.capacitance_F);
  return {
    rule: 13,
    title: 'Banks: inrush',
    about: '',
    formula: 'empty onto a live bus I = V/R; precharged through R_p = t/(5 C)',
    numbers: `${id}: ${V(nominal_V)}/${ohm(r)} = ${A(nominal_V / r)}; ${J((values.capacitance_F * nominal_V ** 2) / 2)} through ${ohm(R)} in ${s(precharge_s)}, ${A(nominal_V / R)} at first`,
    asks: 'a precharge path, or charge it together with the bus (shelves start softly)',
    trays: null,
  };
}
