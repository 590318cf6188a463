/**
 * The parameters of a scenario as the words of its laws have them, as changes: with these, `response` and the other studies work
 * on the coefficients of the header. A coefficient is in proportion to its parameter or to one over it.
 */
import type { LawName } from '../../firmware/law-run.ts';
import type { Change, Scenario } from '../../scenario/scenario.ts';
import type { Heard } from '../heard.ts';
import { formatOfField } from './fixed-form.ts';
import type { LawFormats } from './ranges.ts';
import { asWord } from './word.ts';

interface Parameter {
  /** Field of the law's coefficients, and which of its numbers. */
  readonly field: string;
  readonly k: number;
  readonly path: string;
  readonly value: number;
  readonly unit: string;
  /** 1 where the coefficient grows with it, -1 where it falls. */
  readonly power: 1 | -1;
}

function parametersOf({ firmware, shelves }: Scenario, law: LawName, units: readonly string[]): Parameter[] {
  const { smoothing } = firmware;
  const one = (field: string, path: string, value: number, power: 1 | -1): Parameter => ({
    field,
    k: 0,
    path: `firmware.smoothing.${path}`,
    value,
    unit: 's',
    power,
  });
  if (law === 'smoothing')
    return [one('SmoothingLaw.follow_ratio', 'time_constant', smoothing.time_constant_s, -1)];
  if (law === 'charge')
    return [
      one('ChargeLaw.charge_time_s', 'charge_time', smoothing.charge_time_s, 1),
      one('ChargeLaw.integral_ratio', 'charge_integral_time', smoothing.charge_integral_time_s, -1),
    ];
  if (law !== 'voltage') return [];
  return units.flatMap((id, k): Parameter[] => {
    const { values } = shelves.find((shelf) => shelf.id === id)!;
    const of = (field: string, key: string, value: number, unit: string, power: 1 | -1): Parameter => ({
      field: `VoltageLaw.${field}`,
      k,
      path: `shelves.${id}.${key}`,
      value,
      unit,
      power,
    });
    return [
      of('proportional_gain_A_per_V', 'proportional_gain', values.proportional_gain_A_per_V, 'A/V', 1),
      of('droop_ohm', 'droop', values.droop_ohm, 'ohm', 1),
      of('filter_ratio', 'droop_filter_time', values.droop_filter_time_s, 's', -1),
    ];
  });
}

/** Changes of the parameters whose words are another number; the share's gain stands on several and is left out. */
export function changesAsWords(all: readonly Heard[], scenario: Scenario, formats: LawFormats): Change[] {
  return all.flatMap((heard) =>
    parametersOf(scenario, heard.law, heard.timing?.units ?? []).flatMap(
      ({ field, k, path, value, unit, power }) => {
        const leaf = heard.gains.flatMap(({ leaves }) => leaves).find((one) => one.field === field);
        if (leaf === undefined) return [];
        const real = leaf.read(k);
        const ratio = asWord(real, formatOfField(formats, heard, field)) / real;
        if (!Number.isFinite(ratio) || ratio === 1 || ratio === 0) return [];
        return [{ path, value: `${power === 1 ? value * ratio : value / ratio} ${unit}` }];
      },
    ),
  );
}
