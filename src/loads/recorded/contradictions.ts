/** What was stated against what rows and values say: refused with both, or overruled. */
import { formatQuantity } from '../../base/quantity.ts';
import { combined } from '../../samples/signs/combined.ts';
import type { Sampled } from '../../samples/signs/sign.ts';
import { arePhases } from '../../tables/columns/column-names.ts';
import { quotedName } from '../../tables/columns/column-report.ts';
import { otherBound } from './bounds.ts';
import { derivedAmong, neverLoad } from './derived-names.ts';
import type { NamedChannel, Parts, Refuse } from './read-parts.ts';

/** What was stated against the file: a decimal mark, a unit, that rows are of one device. */
export function meetContradictions({ taker, columns, reading, overruled }: Parts, refuse: Refuse): void {
  const names = columns.powers.map((p) => p.name).join(', ');
  const marks = taker.marks.against(reading.decimal, names);
  if (marks !== null) overruled.meet(marks.found, 'the decimal mark that the file has', marks.mend, refuse);
  // A unit in the cell itself is clearer than a name.
  if (taker.otherUnit !== null && reading.unit !== null)
    overruled.meet(
      `cells such as ${taker.otherUnit} in ${names}, read in ${reading.unit} as stated`,
      'one unit',
      'leave out --unit',
      refuse,
    );
  taker.denied.forEach((denied, k) => {
    const found = denied.found();
    if (found !== null)
      overruled.meet(
        found,
        'rows of one device',
        `give --channel ${quotedName(columns.denied[k]!.name)}`,
        refuse,
      );
  });
}

/** Rows of another quantity, by their label; readings of which another column says that they do not hold as they stand. */
export function meetLabels({ taker, overruled }: Parts, refuse: Refuse): void {
  for (const says of [...taker.labelled, ...taker.notes]) {
    const other = says.found();
    if (other !== null) overruled.meet(other.found, other.expected, other.mend, refuse);
  }
}

/** A bound of what another column bounds on the other side: neither is the load, and their sum is none. */
function meetBounds(
  names: readonly string[],
  { columns, overruled }: Pick<Parts, 'columns' | 'overruled'>,
  refuse: Refuse,
): void {
  const all = [...names, ...columns.unused];
  const found = names.flatMap((name) => {
    const other = otherBound(name, all);
    return other === null ? [] : [{ name, other }];
  })[0];
  if (found === undefined) return;
  overruled.meet(
    `${found.name} beside ${found.other}: by their names the bounds of one power, of which neither is the load`,
    'the power that was drawn, as a mean or at an instant',
    columns.channel === null
      ? 'name another column by --power, or export the mean'
      : `take other rows by --where, or export the mean`,
    refuse,
  );
}

/** A channel that is no load of its own, or that is made of the others and counts them twice. */
export function meetCombined(
  channels: readonly Sampled[],
  { columns, overruled }: Parts,
  refuse: Refuse,
): void {
  const names = channels.map(({ name }) => name);
  meetBounds(names, { columns, overruled }, refuse);
  const leave = (name: string): string =>
    columns.channel === null
      ? `leave ${name} out (${names
          .filter((other) => other !== name)
          .map(
            (other) => `--${columns.powers[0]!.voltage === null ? 'power' : 'current'} ${quotedName(other)}`,
          )
          .join(' ')})`
      : `take the rows of ${name} out of the file`;
  const derived = derivedAmong(names);
  if (derived !== null)
    overruled.meet(
      `${derived.name} beside ${derived.others.join(', ')}: by its name ${derived.what}, no load of its own`,
      'channels that are summed, each a load of its own',
      leave(derived.name),
      refuse,
    );
  const alone = derived === null ? neverLoad([...names, ...columns.rows.map(({ value }) => value)]) : null;
  if (alone !== null)
    overruled.meet(
      `${alone.name}: by its name ${alone.what}, and not what the load drew`,
      'the power that was drawn, as a mean or at an instant',
      columns.channel === null && columns.rows.length === 0
        ? 'name another column by --power'
        : 'take other rows by --where',
      refuse,
    );
  // Phases of a balanced load are alike, each nearly the mean of the others.
  const found = derived === null && !arePhases(names) ? combined(channels) : null;
  if (found !== null)
    overruled.meet(
      `${names[found.whole]} ${found.words}`,
      'channels that are summed, each a load of its own',
      leave(names[found.whole]!),
      refuse,
    );
}

/** A channel as the room of signs looks at it. */
export function sampled({ name, series }: Pick<NamedChannel, 'name' | 'series'>): Sampled {
  const written = (power_W: number): string => formatQuantity(power_W, 'power', 4);
  return { name, time_s: series.time_s, values: series.power_W, written, rests: true };
}
