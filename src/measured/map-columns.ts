import type { Channel } from '../channels/channel.ts';
import { listed, nearestOr } from '../scenario/text/nearest.ts';
import type { TimeColumn } from '../tables/columns/choose-time.ts';
import { type ColumnReport, isRepeated, quotedName } from '../tables/columns/column-report.ts';
import { bare, factorOf } from './measured-unit.ts';

export interface MappedColumn {
  readonly index: number;
  readonly name: string;
  readonly channel: Channel;
  /** From the column's unit to the channel's. */
  readonly factor: number;
}

/**
 * Which column stands for which channel: by the map, else by the same name but for the unit. Columns that name
 * nothing of the model are passed over and said; a map that names nothing, or no column at all, is reported.
 */
export function mapColumns(
  names: readonly string[],
  time: TimeColumn | null,
  map: ReadonlyMap<string, string>,
  channels: readonly Channel[],
  report: ColumnReport,
  remarks: string[],
): MappedColumn[] {
  const byName = new Map(channels.map((channel) => [bare(channel.id).toLowerCase(), channel]));
  const mapped: MappedColumn[] = [];
  const over: string[] = [];
  for (const name of map.keys()) {
    if (!names.includes(name)) {
      report(
        `no column named ${name}`,
        `one of ${names.join(', ')}`,
        'give --map COLUMN=CHANNEL with one of these',
      );
    }
  }
  const stamps = [time?.index, time?.dateIndex].flatMap((index) =>
    index === undefined ? [] : [names[index]],
  );
  for (const name of stamps)
    if (name !== undefined && map.has(name))
      report(
        `--map of ${name}, which holds the stamps`,
        'a column that holds what was measured',
        'leave it out, or name another column of stamps by --time',
      );
  names.forEach((name, index) => {
    if (index === time?.index || index === time?.dateIndex || name === '') return;
    const wanted = map.get(name);
    const channel = byName.get(bare(wanted ?? name).toLowerCase());
    if (channel === undefined) {
      if (wanted === undefined) over.push(name);
      else {
        const ids = channels.map(({ id }) => id);
        const otherwise = `name one such as ${listed(ids.slice(0, 3))}`;
        report(`no channel ${wanted}`, 'a channel of the model', nearestOr(otherwise, wanted, ids));
      }
      return;
    }
    const factor = factorOf(name, channel.unit);
    if (factor === null) {
      report(
        `column ${name} for channel ${channel.id}`,
        `a column in ${channel.unit}`,
        'map it to a channel of its kind',
      );
      return;
    }
    mapped.push({ index, name, channel, factor });
    if (wanted === undefined) remarks.push(`Column ${name} is channel ${channel.id}, by its name.`);
  });
  const repeated = mapped.find(({ index }) => isRepeated(names, index));
  if (repeated !== undefined)
    report(
      `2 columns or more named ${repeated.name}, for channel ${repeated.channel.id}`,
      'one column of that name',
      'give the columns names of their own',
    );
  if (over.length > 0) remarks.push(`Not used: ${over.join(', ')}.`);
  if (mapped.length === 0 && map.size === 0) {
    const first = over[0] ?? 'COLUMN';
    report(
      `no column that names a channel of the model: ${names.join(', ')}`,
      'columns such as A.S1.voltage_V, S1.current_A, total.ac_power_W',
      `give --map ${quotedName(first)}=CHANNEL, for example --map ${quotedName(first)}=total.ac_power_W`,
    );
  }
  return mapped;
}
