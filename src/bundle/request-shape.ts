/** The shape of `request.json`. The compiler holds it to `RunRequest`: a field that is added there is missed here. */
import type { RunRequest } from '../request/run-request.ts';
import { finite, listOf, oneOf, orNull, record, type Shape, text, truth } from './shape.ts';

const dates = orNull(oneOf('day-first', 'month-first'));
const decimal = orNull(oneOf('comma', 'point'));

const reading = record({
  time: orNull(text),
  power: listOf(text),
  current: listOf(text),
  voltage: orNull(text),
  channel: orNull(text),
  unit: orNull(text),
  where: listOf(text),
  dates,
  decimal,
  averaging_s: orNull(finite),
  samples: orNull(oneOf('means', 'instants')),
  sentinel: listOf(finite),
  fresh: truth,
  sort: truth,
  align: truth,
  overrule: truth,
  accept_ac: truth,
  at: oneOf('device', 'sled', 'rack'),
  side: oneOf('dc', 'ac'),
  copies: orNull(finite),
  coincidence: oneOf('together', 'spread', 'worst'),
  smoothed: truth,
});

export const requestShape: Shape<RunRequest> = record({
  scenario: text,
  changes: listOf(record({ path: text, value: text, option: text })),
  load: orNull(record({ file: text, reading, assumed: listOf(text) })),
  waivers: listOf(record({ limit: text, reason: text, by: orNull(text), until: orNull(text) })),
  judged_on: text,
  asked_on: text,
  doubt: truth,
  measured: orNull(
    record({
      file: text,
      time: orNull(text),
      dates,
      decimal,
      map: listOf(record({ column: text, channel: text })),
      at_s: orNull(finite),
      near_s: orNull(finite),
      sentinel: listOf(finite),
      sensors: listOf(record({ of: text, sensor: text })),
    }),
  ),
});
