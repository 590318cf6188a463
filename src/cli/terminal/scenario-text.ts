/** A scenario in a few plain lines, every number with its unit. */
import { counted } from '../../base/counted.ts';
import { formatPercent, formatQuantity } from '../../base/quantity.ts';
import { occurrences } from '../../scenario/occurrences.ts';
import { fieldOf, type ParameterSpec } from '../../scenario/parameter.ts';
import type { EventSpec, LoadSpec, Scenario, Unit } from '../../scenario/scenario.ts';
import { type SyntheticLoad, syntheticLoads } from '../../scenario/synthetic-loads.ts';

/** Label and text of each line. */
export function scenarioLines(scenario: Scenario): [label: string, text: string][] {
  const lines: [string, string][] = [];
  if (scenario.expectation !== '') lines.push(['expected', scenario.expectation]);
  lines.push(
    ['cabinet', `${power(scenario.rated_W)} at ${formatQuantity(scenario.nominal_V, 'voltage')}`],
    ['', unitText(scenario)],
    ['bars', barText(scenario)],
    ['load', loadText(scenario.load)],
    ['run', runText(scenario)],
    ['events', scenario.events.length === 0 ? 'none' : scenario.events.map(eventText).join('; ')],
    [
      'limits',
      `${counted(scenario.limits.length, 'row')}, ${scenario.outage ? 'degraded' : 'normal'} column`,
    ],
  );
  for (const { path, value } of scenario.changes) {
    lines.push(['change', `${path} = ${value}`]);
    const makes = scenario.alterations.find((one) => one.path === path && one.to === value)?.makes;
    if (makes !== undefined) lines.push(['', `makes ${makes}`]);
  }
  return lines;
}

function power(value_W: number): string {
  return formatQuantity(value_W, 'power', 4);
}

function time(value_s: number): string {
  return formatQuantity(value_s, 'time', 6);
}

function sumOf<V>(units: readonly Unit<V>[], value: (values: V) => number): number {
  return units.reduce((sum, unit) => sum + value(unit.values), 0);
}

function unitText({ feeders, shelves, trays, banks, batteries, sleds }: Scenario): string {
  const window = sumOf(
    trays,
    (t) => (t.capacitance_F / 2) * (t.voltage_high_V * t.voltage_high_V - t.voltage_low_V * t.voltage_low_V),
  );
  return [
    counted(feeders.length, 'feeder'),
    `${counted(shelves.length, 'shelf', 'shelves')} (${power(sumOf(shelves, (s) => s.module_count_count * s.module_power_W))})`,
    `${counted(trays.length, 'tray')} (${power(sumOf(trays, (t) => t.power_limit_W))}, about ${formatQuantity(window, 'energy', 3)})`,
    `${counted(banks.length, 'bank')} (${formatQuantity(
      sumOf(banks, (b) => b.capacitance_F),
      'capacitance',
      4,
    )})`,
    batteries.length === 0
      ? 'no battery shelves'
      : `${counted(batteries.length, 'battery shelf', 'battery shelves')} (${power(sumOf(batteries, (b) => b.module_count_count * b.module_power_W))})`,
    `${counted(sleds.length, 'sled')} (${power(sumOf(sleds, (s) => s.peak_power_W))} peak)`,
  ].join(', ');
}

function barText({ sections, bars }: Scenario): string {
  const tie = bars.tie === null ? 'no tie' : bars.tie.closed ? 'tie closed' : 'tie open';
  const open = bars.links.filter((link) => !link.closed).length;
  const places = sections.map(({ id, order }) => `${id} ${order.length}`).join(', ');
  return `places: ${places}; ${counted(bars.links.length, 'link bar')}${open === 0 ? '' : ` (${open} open)`}, ${tie}`;
}

function loadText(load: LoadSpec): string {
  switch (load.kind) {
    case 'constant':
      return `constant ${power(load.power_W)}`;
    case 'step':
      return `${power(load.before_W)} to ${power(load.after_W)} in ${time(load.edge_s)} at ${time(load.at_s)}`;
    case 'pulse-train': {
      const uneven = [
        ...(load.spread_s === 0 ? [] : [`spread ${time(load.spread_s)}`]),
        ...(load.scatter_s === 0 ? [] : [`scatter ${time(load.scatter_s)}`]),
        ...(load.jitter_s === 0 ? [] : [`jitter ${time(load.jitter_s)}`]),
      ];
      return [
        `pulses of ${power(load.low_W)} to ${power(load.high_W)} every ${time(load.period_s)}`,
        `${formatPercent(load.duty_ratio)} high`,
        `edges of ${time(load.edge_s)}`,
        ...uneven,
      ].join(', ');
    }
    case 'recorded': {
      const size =
        load.peak_W === null ? `scaled by ${load.scale_ratio}` : `scaled to a peak of ${power(load.peak_W)}`;
      return `recorded, ${load.file} from ${time(load.from_s)} to ${time(load.to_s)}, ${size}`;
    }
    default:
      return familyText(load);
  }
}

/** Every value of a synthetic load, with its unit. */
function familyText(load: SyntheticLoad): string {
  const table: Readonly<Record<string, ParameterSpec>> = syntheticLoads[load.kind];
  const values = load as unknown as Readonly<Record<string, number>>;
  const words = Object.entries(table).map(
    ([key, spec]) =>
      `${key.replaceAll('_', ' ')} ${formatQuantity(values[fieldOf(key, spec)]!, spec.dimension)}`,
  );
  return `${load.kind}: ${words.join(', ')}`;
}

function runText(scenario: Scenario): string {
  const start = scenario.start === 'settled' ? 'settled on the load' : "from the load's converged cycle";
  const warmUp = scenario.warm_up_s === 0 ? '' : `, the first ${time(scenario.warm_up_s)} not judged`;
  return `${time(scenario.duration_s)} in steps of ${time(scenario.step_s)}, ${start}${warmUp}`;
}

function eventText({ at_s, what, unit, amount, for_s, over_s }: EventSpec): string {
  const kind = occurrences[what].amount;
  const much =
    kind === undefined || amount === null
      ? ''
      : ` ${kind.word} ${formatQuantity(amount, kind.spec.dimension)}`;
  const lasting = for_s === null ? '' : ` for ${time(for_s)}`;
  const coming = over_s === null ? '' : ` over ${time(over_s)}`;
  return `${what} ${unit}${much}${lasting}${coming} at ${time(at_s)}`;
}
