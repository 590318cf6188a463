/** Checks that need more than one value: names that must exist, orders that must hold, bars that must reach. */
import { formatQuantity } from '../quantity.ts';
import { eventsOf } from './assemble.ts';
import { fittedUnits, type Structure } from './cabinet.ts';
import { type Leaf, problemAt } from './document.ts';
import { listed, nearestWords } from './nearest.ts';
import { refuseUnfedBars } from './reach.ts';
import type { EventSpec, LoadSpec, Origin } from './scenario.ts';
import type { Sheet } from './sheet.ts';
import { type Family, placedFamilies } from './tables.ts';
import { wholeTicks } from './ticks.ts';

export function crossCheck(
  structure: Structure,
  loadKind: LoadSpec['kind'] | null,
  eventCount: number,
  sheet: Sheet,
): void {
  checkPlaces(structure, sheet);
  checkLinks(structure, sheet);
  refuseUnfedBars(structure, sheet);
  checkEvents(structure, eventCount, sheet);
  checkOrders(structure, sheet);
  checkRun(loadKind, sheet);
}

function idsOf(structure: Structure, family: Family): string[] {
  return structure.units.get(family)!.map(({ text }) => text);
}

function say(
  sheet: Sheet,
  origin: Origin | null,
  path: string,
  found: string,
  expected: string,
  mend: string,
): void {
  sheet.problems.push(problemAt(origin, path, found, expected, mend));
}

function checkPlaces(structure: Structure, sheet: Sheet): void {
  const known = new Map<string, Leaf>();
  for (const family of placedFamilies) {
    for (const leaf of structure.units.get(family)!) {
      if (known.has(leaf.text)) {
        say(
          sheet,
          leaf.origin,
          family,
          `${leaf.text} a second time`,
          'a name of its own',
          'give it another name',
        );
      }
      known.set(leaf.text, leaf);
    }
  }
  const placed = new Set<string>();
  for (const { id, order } of structure.sections) {
    for (const leaf of order) {
      const path = `sections.${id}`;
      if (!known.has(leaf.text)) {
        const near = nearestWords(leaf.text, [...known.keys()]);
        const mend = near.length === 0 ? 'define it or take it out' : `nearest: ${near.join(', ')}`;
        say(sheet, leaf.origin, path, `unit ${leaf.text}`, 'a unit that the cabinet defines', mend);
      } else if (placed.has(leaf.text)) {
        say(
          sheet,
          leaf.origin,
          path,
          `${leaf.text} in a second place`,
          'each unit in one place',
          'keep one of them',
        );
      }
      placed.add(leaf.text);
    }
  }
  for (const [id, leaf] of known) {
    if (placed.has(id)) continue;
    say(
      sheet,
      leaf.origin,
      id,
      `unit ${id} without a place`,
      'a place in a section',
      `add ${id} to sections`,
    );
  }
}

function checkLinks(structure: Structure, sheet: Sheet): void {
  const racks = structure.units.get('sleds')!.length;
  for (const { id, section } of structure.links) {
    const path = `bars.links.${id}`;
    const order = structure.sections.find((candidate) => candidate.id === section.text)?.order;
    if (order === undefined) {
      const names = structure.sections.map((candidate) => candidate.id);
      say(
        sheet,
        section.origin,
        `${path}.section`,
        `section ${section.text}`,
        listed(names),
        'name one of them',
      );
    }
    const within = (key: 'place' | 'rack', most: number, of: string): void => {
      const value = sheet.number(`${path}.${key}`);
      if (!(value > most)) return;
      const origin = sheet.cells.get(`${path}.${key}`)?.origin ?? null;
      say(sheet, origin, `${path}.${key}`, `${key} ${value}`, `1 to ${most}, ${of}`, 'name one that exists');
    };
    if (order !== undefined) within('place', order.length, `the places of section ${section.text}`);
    within('rack', racks, 'the nodes of the rack bar, one per sled');
  }
}

function checkEvents(structure: Structure, eventCount: number, sheet: Sheet): void {
  const bars = [...structure.links.map(({ id }) => id), ...(structure.tie === null ? [] : [structure.tie])];
  const feeders = [...idsOf(structure, 'feeders'), 'all'];
  const unitsOf: Readonly<Record<EventSpec['what'], readonly string[]>> = {
    'shelf-trip': fittedUnits(structure, 'shelves', sheet).map(({ text }) => text),
    'tray-out': fittedUnits(structure, 'trays', sheet).map(({ text }) => text),
    'bar-out': bars,
    'ac-loss': feeders,
    'ac-return': feeders,
  };
  for (let i = 1; i <= eventCount; i += 1) {
    const what = sheet.text(`events.${i}.what`) as EventSpec['what'] | null;
    const unit = sheet.text(`events.${i}.unit`);
    if (what === null || unit === null || unitsOf[what].includes(unit)) continue;
    const origin = sheet.cells.get(`events.${i}.unit`)?.origin ?? null;
    const near = nearestWords(unit, unitsOf[what]);
    const mend = near.length === 0 ? 'name one of them' : `nearest: ${near.join(', ')}`;
    say(
      sheet,
      origin,
      `events.${i}.unit`,
      `unit ${unit}`,
      `for ${what} one of ${listed(unitsOf[what])}`,
      mend,
    );
  }
  const end = sheet.number('duration');
  for (const [i, { at_s, what }] of eventsOf(eventCount, sheet).entries()) {
    if (!(at_s > end)) continue;
    sheet.problems.push(
      problemAt(
        sheet.cells.get(`events.${i + 1}.at`)?.origin ?? null,
        `events.${i + 1}.at`,
        `${what} at ${formatQuantity(at_s, 'time')}`,
        `within the run of ${formatQuantity(end, 'time')}`,
        'it never happens; lengthen the run or move the event',
        'warning',
      ),
    );
  }
}

/** Pairs of values of which the first must be below the second, by family or prefix. */
const orders: readonly (readonly [holder: Family | string, low: string, high: string])[] = [
  ['trays', 'voltage_low', 'voltage_high'],
  ['shelves', 'bulk_voltage_min', 'bulk_voltage'],
  ['sleds', 'cut_off_voltage', 'restart_voltage'],
  ['firmware.smoothing', 'load_low', 'load_high'],
  ['firmware.smoothing', 'charge_low', 'charge_high'],
];

function checkOrders(structure: Structure, sheet: Sheet): void {
  const said = new Set<string>();
  for (const [holder, low, high] of orders) {
    const units = structure.units.get(holder as Family);
    const prefixes = units === undefined ? [holder] : units.map(({ text }) => `${holder}.${text}`);
    for (const prefix of prefixes) {
      const below = sheet.cells.get(`${prefix}.${low}`);
      const above = sheet.cells.get(`${prefix}.${high}`);
      if (typeof below?.value !== 'number' || typeof above?.value !== 'number') continue;
      if (below.value < above.value || below.field.kind !== 'quantity') continue;
      // All units of one model: once is enough.
      const key = JSON.stringify([holder, low, below.origin, above.origin]);
      if (said.has(key)) continue;
      said.add(key);
      const { dimension } = below.field.spec;
      say(
        sheet,
        below.origin ?? above.origin,
        `${prefix}.${low}`,
        formatQuantity(below.value, dimension),
        `below ${high}, which is ${formatQuantity(above.value, dimension)}`,
        `lower ${low} or raise ${high}`,
      );
    }
  }
  const total = idsOf(structure, 'sleds').reduce((sum, id) => sum + sheet.number(`sleds.${id}.weight`), 0);
  if (total === 0) {
    say(
      sheet,
      null,
      'sleds.weight',
      'weights that sum to 0',
      'at least one weight above 0',
      'give a sled a weight',
    );
  }
}

function checkRun(loadKind: LoadSpec['kind'] | null, sheet: Sheet): void {
  const at = (path: string): Origin | null => sheet.cells.get(path)?.origin ?? null;
  const time = (path: string): string => formatQuantity(sheet.number(path), 'time');
  if (sheet.number('warm_up') >= sheet.number('duration')) {
    say(
      sheet,
      at('warm_up'),
      'warm_up',
      time('warm_up'),
      `shorter than the run of ${time('duration')}`,
      'shorten it',
    );
  }
  const stepTicks = wholeTicks(sheet.number('step'), sheet.number('tick'));
  if (stepTicks !== null && stepTicks < 1) {
    say(sheet, at('step'), 'step', time('step'), `at least one tick of ${time('tick')}`, 'lengthen the step');
  }
  if (sheet.text('start') === 'converged-cycle' && loadKind !== null && !isPeriodic(loadKind, sheet)) {
    say(
      sheet,
      at('start') ?? at('load.jitter'),
      'start',
      `converged-cycle with a load that does not repeat (${loadKind})`,
      'a pulse train without jitter',
      'write start: settled',
    );
  }
  if (loadKind === 'pulse-train') checkPulse(sheet);
  if (loadKind === 'recorded') checkRecorded(sheet);
}

function isPeriodic(loadKind: LoadSpec['kind'], sheet: Sheet): boolean {
  return loadKind === 'pulse-train' && sheet.number('load.jitter') === 0;
}

function checkPulse(sheet: Sheet): void {
  const at = (key: string): Origin | null => sheet.cells.get(`load.${key}`)?.origin ?? null;
  const n = (key: string): number => sheet.number(`load.${key}`);
  if (n('low') > n('high')) {
    const high = formatQuantity(n('high'), 'power');
    say(
      sheet,
      at('low'),
      'load.low',
      formatQuantity(n('low'), 'power'),
      `at most high, ${high}`,
      'swap them',
    );
  }
  const shorter = Math.min(n('duty'), 1 - n('duty')) * n('period');
  // The decimal values may miss each other in the last place.
  if (n('edge') > shorter * (1 + 1e-12)) {
    const edge = formatQuantity(n('edge'), 'time');
    const room = formatQuantity(shorter, 'time', 6);
    say(
      sheet,
      at('edge'),
      'load.edge',
      edge,
      `at most the shorter part of the period, ${room}`,
      'shorten the edge',
    );
  }
}

function checkRecorded(sheet: Sheet): void {
  const at = (key: string): Origin | null => sheet.cells.get(`load.${key}`)?.origin ?? null;
  if (sheet.number('load.from') >= sheet.number('load.to')) {
    const to = formatQuantity(sheet.number('load.to'), 'time');
    const from = formatQuantity(sheet.number('load.from'), 'time');
    say(sheet, at('from') ?? at('to'), 'load.from', from, `before to, ${to}`, 'mend from or to');
  }
  const peak = sheet.numberOrNull('load.peak');
  const scale = sheet.numberOrNull('load.scale');
  if ((peak === null) === (scale === null)) {
    say(
      sheet,
      at('file'),
      'load.peak',
      peak === null ? 'neither peak nor scale' : 'both peak and scale',
      'one of them',
      'write peak: 200 kW, or scale: 1 to play it as recorded',
    );
  }
}
