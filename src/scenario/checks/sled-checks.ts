/** Sleds and what happens to them: thresholds in their order, and a plug that needs an empty place. */
import { formatQuantity } from '../../base/quantity.ts';
import { idsOf, type Structure } from '../sections/structure.ts';
import type { Sheet } from '../sheet.ts';
import { say } from '../text/say.ts';

export function checkSleds(structure: Structure, eventCount: number, sheet: Sheet): void {
  checkThrottles(structure, sheet);
  checkPlugs(eventCount, sheet);
}

/** A throttle must act above the cut-off; where nothing is asked of it, it is none. */
function checkThrottles(structure: Structure, sheet: Sheet): void {
  const said = new Set<string>();
  for (const id of idsOf(structure, 'sleds')) {
    const throttle_V = sheet.number(`sleds.${id}.throttle_voltage`);
    const cutOff_V = sheet.number(`sleds.${id}.cut_off_voltage`);
    if (!(throttle_V > 0) || throttle_V > cutOff_V) continue;
    const origin = sheet.cells.get(`sleds.${id}.throttle_voltage`)?.origin ?? null;
    const key = JSON.stringify([origin, throttle_V, cutOff_V]);
    if (said.has(key)) continue;
    said.add(key);
    say(
      sheet,
      origin,
      `sleds.${id}.throttle_voltage`,
      formatQuantity(throttle_V, 'voltage'),
      `above cut_off_voltage, which is ${formatQuantity(cutOff_V, 'voltage')}, or 0 V for no throttle`,
      'raise throttle_voltage: below the cut-off nothing is left to throttle',
    );
  }
}

/** `sled-on` plugs a sled into a place that an earlier `sled-off` or the fuse of a `sled-short` has opened. */
function checkPlugs(eventCount: number, sheet: Sheet): void {
  const events = Array.from({ length: eventCount }, (_, i) => {
    const path = `events.${i + 1}`;
    const lasts_s = sheet.numberOrNull(`${path}.for`) ?? 0;
    return {
      path,
      what: sheet.text(`${path}.what`),
      unit: sheet.text(`${path}.unit`),
      at_s: sheet.number(`${path}.at`),
      opens_s: sheet.number(`${path}.at`) + lasts_s,
    };
  });
  for (const on of events) {
    if (on.what !== 'sled-on' || on.unit === null) continue;
    const opened = events.some(
      ({ what, unit, opens_s }) =>
        (what === 'sled-off' || what === 'sled-short') &&
        (unit === on.unit || unit === 'all' || on.unit === 'all') &&
        opens_s < on.at_s,
    );
    if (opened) continue;
    say(
      sheet,
      sheet.cells.get(`${on.path}.unit`)?.origin ?? null,
      on.path,
      `sled-on of ${on.unit} at ${formatQuantity(on.at_s, 'time')}, which is on the bus then`,
      'a sled-off or sled-short of it before',
      `add - { at: …, what: sled-off, unit: ${on.unit} } at an earlier time`,
    );
  }
}
