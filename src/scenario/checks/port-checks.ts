/** Ports of the management network: devices that are there, each once, no more than the port serves and has time for. */
import { counted } from '../../base/counted.ts';
import { formatQuantity } from '../../base/quantity.ts';
import { pollRound } from '../derived/poll-round.ts';
import { portPath, portValues, type WrittenPort } from '../sections/monitoring.ts';
import { fittedUnits, type Structure } from '../sections/structure.ts';
import type { Sheet } from '../sheet.ts';
import { type Family, placedFamilies } from '../tables.ts';
import { nearestOr } from '../text/nearest.ts';
import { say } from '../text/say.ts';

/** What has registers to be read; feeders and bars have none. */
const polled: readonly Family[] = [...placedFamilies, 'sleds'];

export function checkPorts(ports: readonly WrittenPort[], structure: Structure, sheet: Sheet): void {
  const kindOf = new Map(
    polled.flatMap((family) =>
      fittedUnits(structure, family, sheet).map(({ text }) => [text, family] as const),
    ),
  );
  for (const port of ports) {
    refuseNames(port, kindOf, sheet);
    const values = portValues(port.id, sheet);
    if (Object.values(values).some(Number.isNaN)) continue;
    refuseCrowd(port, kindOf, values.most_of_a_kind_count, sheet);
    const { device_s, round_s, most_in_period_count } = pollRound(values, port.polls.length);
    if (round_s <= values.period_s) continue;
    const [each, round, period] = [device_s, round_s, values.period_s].map((time_s) =>
      formatQuantity(time_s, 'time', 4),
    );
    say(
      sheet,
      port.origin,
      `${portPath(port.id)}.period`,
      `${counted(port.polls.length, 'device', 'devices')} of ${each} each: a round of ${round}`,
      `a round within the period of ${period}, which has time for ${most_in_period_count}`,
      'lengthen the period, read fewer registers, raise the bit rate, or move devices to another port',
    );
  }
}

function refuseNames(
  { id, polls, origin }: WrittenPort,
  kindOf: ReadonlyMap<string, Family>,
  sheet: Sheet,
): void {
  const path = `${portPath(id)}.polls`;
  if (polls.length === 0) say(sheet, origin, path, 'no device', 'at least one', `name one, or remove ${id}`);
  const before = new Set<string>();
  for (const { text, origin: at } of polls) {
    if (!kindOf.has(text)) {
      const mend = nearestOr('name a device of this cabinet', text, [...kindOf.keys()]);
      say(sheet, at, path, `device ${text}`, `one of ${polled.join(', ')} that is fitted`, mend);
    } else if (before.has(text)) {
      say(sheet, at, path, `${text} a second time`, 'each device once on a port', 'keep one of them');
    }
    before.add(text);
  }
}

function refuseCrowd(
  { id, polls, origin }: WrittenPort,
  kindOf: ReadonlyMap<string, Family>,
  most: number,
  sheet: Sheet,
): void {
  for (const family of polled) {
    const found = polls.filter(({ text }) => kindOf.get(text) === family);
    if (found.length <= most) continue;
    say(
      sheet,
      origin,
      `${portPath(id)}.polls`,
      `${found.length} ${family} on port ${id}`,
      `at most ${most} of a kind on it (most_of_a_kind)`,
      `move ${found
        .slice(most)
        .map(({ text }) => text)
        .join(', ')} to another port`,
    );
  }
}
