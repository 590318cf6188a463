/** Checks of a shelf's values against each other, and of the modules that events take from it. */
import { formatQuantity } from '../../base/quantity.ts';
import { fittedUnits, type Structure } from '../sections/structure.ts';
import type { Sheet } from '../sheet.ts';
import { problemAt } from '../text/document.ts';
import { say } from '../text/say.ts';

export function checkShelves(structure: Structure, eventCount: number, sheet: Sheet): void {
  const said = new Set<string>();
  for (const { text: id } of fittedUnits(structure, 'shelves', sheet)) checkShelf(id, said, sheet);
  for (let i = 1; i <= eventCount; i++) checkModules(i, sheet);
}

type Refusal = (key: string, found: string, expected: string, mend: string) => void;

/** A current that is distorted has a power factor below 1/√(1 + THD²), whatever its phase. */
function checkLineCurrent(
  n: (key: string) => number,
  percent: (key: string) => string,
  refuse: Refusal,
): void {
  for (const load of ['', '_half', '_fifth', '_tenth']) {
    const [factor, distortion] = [n(`power_factor${load}`), n(`current_distortion${load}`)];
    const most = 1 / Math.sqrt(1 + distortion * distortion);
    if (factor <= most * (1 + 1e-12)) continue;
    refuse(
      `power_factor${load}`,
      percent(`power_factor${load}`),
      `at most ${Number((100 * most).toFixed(3))} % with a THD of ${percent(`current_distortion${load}`)}`,
      'lower one of them',
    );
  }
}

function checkShelf(id: string, said: Set<string>, sheet: Sheet): void {
  const prefix = `shelves.${id}`;
  const n = (key: string): number => sheet.number(`${prefix}.${key}`);
  const refuse: Refusal = (key, found, expected, mend) => {
    const origin = sheet.cells.get(`${prefix}.${key}`)?.origin ?? null;
    // All units of one model: once is enough.
    const once = JSON.stringify([key, origin]);
    if (said.has(once)) return;
    said.add(once);
    say(sheet, origin, `${prefix}.${key}`, found, expected, mend);
  };
  const percent = (key: string): string => `${Number((100 * n(key)).toFixed(3))} %`;
  checkLineCurrent(n, percent, refuse);
  if (n('droop') === 0 && n('integral_gain') > 0) {
    refuse(
      'droop',
      'no droop under an integrator',
      'a droop above 0: sources that all hold one voltage exactly do not share',
      'write a droop, or integral_gain: 0 A/(V s) for droop by finite gain',
    );
  }
  if (n('peak_current_limit') > 0 && n('peak_current_limit') <= n('current_limit')) {
    refuse(
      'peak_current_limit',
      percent('peak_current_limit'),
      `above current_limit, which is ${percent('current_limit')}`,
      'raise it, or write 0 for none',
    );
  }
  const least_V = n('set_point') * (1 + n('set_point_offset'));
  if (n('over_voltage') > 0 && n('over_voltage') * n('rated_voltage') <= least_V) {
    refuse(
      'over_voltage',
      `${percent('over_voltage')} of ${formatQuantity(n('rated_voltage'), 'voltage')}`,
      `above the set point of ${formatQuantity(least_V, 'voltage')}`,
      'raise it, or the shelf latches by its own voltage',
    );
  }
  checkLoop(n, refuse);
  tellIdleDelay(prefix, said, sheet);
  for (const row of [1, 2, 3, 4]) {
    if (!(n(`overload_level_${row}`) > 0) || n(`overload_hold_${row}`) > 0) continue;
    refuse(
      `overload_level_${row}`,
      `a row of the overload table at ${percent(`overload_level_${row}`)} without a stay`,
      `overload_hold_${row} above 0`,
      'write how long it may last, or 0 for no such row',
    );
  }
}

/** A sampled voltage loop: its times against each other, its converters against what they must show. */
function checkLoop(n: (key: string) => number, refuse: Refusal): void {
  if (!(n('loop_period') > 0)) return;
  const time = (key: string): string => formatQuantity(n(key), 'time');
  if (n('loop_latency') + n('loop_jitter') > n('loop_period') * (1 + 1e-9)) {
    refuse(
      n('loop_latency') > n('loop_period') ? 'loop_latency' : 'loop_jitter',
      `a latency of ${time('loop_latency')} and a jitter of ${time('loop_jitter')}`,
      `together at most the period, which is ${time('loop_period')}`,
      'lower them, or raise loop_period',
    );
  }
  const highest_V = n('set_point') * (1 + n('set_point_offset'));
  const highest_A = (n('current_limit') * n('module_count') * n('module_power')) / n('rated_voltage');
  const converters = [
    ['loop_voltage', 'voltage', highest_V, 'set point'],
    ['loop_current', 'current', highest_A, 'current limit'],
  ] as const;
  for (const [key, dimension, highest, words] of converters) {
    if (!(n(`${key}_bits`) > 0) || n(`${key}_range`) > highest) continue;
    refuse(
      `${key}_range`,
      `a converter that ends at ${formatQuantity(n(`${key}_range`), dimension)}`,
      `more than the ${words}, which is ${formatQuantity(highest, dimension)}`,
      `write where it ends, or ${key}_bits: 0 for an exact one`,
    );
  }
}

/** A sampled loop has its own delay: one that somebody wrote for the continuous loop does nothing. A model's own may stand. */
function tellIdleDelay(prefix: string, said: Set<string>, sheet: Sheet): void {
  const path = `${prefix}.control_delay`;
  const cell = sheet.cells.get(path);
  const isWritten = cell !== undefined && cell.origin !== null && cell.note === null;
  if (!isWritten || !(sheet.number(`${prefix}.loop_period`) > 0)) return;
  const once = JSON.stringify(['control_delay', cell.origin]);
  if (said.has(once)) return;
  said.add(once);
  sheet.problems.push(
    problemAt(
      cell.origin,
      path,
      `${formatQuantity(Number(cell.value), 'time')}, which has no effect: loop_period samples the loop, every ${formatQuantity(sheet.number(`${prefix}.loop_period`), 'time')}`,
      'loop_latency and loop_jitter for the delay of a sampled loop',
      'write loop_latency instead, or loop_period: 0 for the continuous loop',
      'warning',
    ),
  );
}

function checkModules(i: number, sheet: Sheet): void {
  if (sheet.text(`events.${i}.what`) !== 'module-out') return;
  const unit = sheet.text(`events.${i}.unit`);
  const count = sheet.cells.get(`events.${i}.count`);
  const all = sheet.number(`shelves.${unit}.module_count`);
  if (typeof count?.value !== 'number' || !(count.value > all)) return;
  say(
    sheet,
    count.origin,
    `events.${i}.count`,
    `${count.value} modules of ${unit}`,
    `at most the ${all} that it has`,
    'lower the count',
  );
}
