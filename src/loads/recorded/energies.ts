/** Energies of channels that are told of: in what was bridged, and in what the span that all share leaves out. */
import type { Gap } from '../../samples/gaps.ts';
import { cut, endOf, trapezoid_J } from '../../samples/series.ts';
import type { NamedChannel } from './read-parts.ts';

/** Energy that lies in the bridged gaps, by the straight lines [J]. */
export function gapEnergy_J(cleaned: readonly NamedChannel[], gaps: readonly (readonly Gap[])[]): number {
  let energy_J = 0;
  cleaned.forEach(({ series }, k) => {
    for (const gap of gaps[k]!) {
      const part = cut(series, gap.from_s, gap.to_s);
      energy_J += trapezoid_J(part.time_s, part.power_W);
    }
  });
  return energy_J;
}

/** Energy of the channels over their own spans, and what lies outside the span they share. */
export function joined(cleaned: readonly NamedChannel[], from_s: number, to_s: number) {
  const cut_s = Math.max(
    ...cleaned.map((c) => Math.max(from_s - c.series.time_s[0]!, endOf(c.series) - to_s)),
  );
  return { channels_J: cleaned.reduce((all, c) => all + c.merged_J, 0), cut_s };
}
