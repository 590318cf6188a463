/** What signals, shelves out of step and trays that stick cannot be: against the cabinet that they happen to. */
import { formatQuantity } from '../../base/quantity.ts';
import { idsOf, type Structure } from '../sections/structure.ts';
import type { Sheet } from '../sheet.ts';
import { say } from '../text/say.ts';

/** Kinds of fault that an entry of the signal table does not know, with the way to say it. */
const unknown: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'signal-scaled': { ac: 'the AC signal is a word, not a number: it may be lost, frozen, late or jitter' },
  'signal-stuck': {
    ac: 'the AC signal has no common line: it may be lost, frozen, late or jitter',
    smoothing: 'the trays have no common line: scale or freeze their signal',
  },
};

export function checkSignals(structure: Structure, eventCount: number, sheet: Sheet): void {
  for (let i = 1; i <= eventCount; i += 1) {
    const path = `events.${i}`;
    const what = sheet.text(`${path}.what`) ?? '';
    const unit = sheet.text(`${path}.unit`) ?? '';
    const mend = unknown[what]?.[unit];
    const origin = sheet.cells.get(`${path}.unit`)?.origin ?? null;
    if (mend !== undefined)
      say(sheet, origin, `${path}.unit`, `${what} of ${unit}`, 'a signal that can be so', mend);
    if (what === 'tray-stuck') checkStuck(unit, path, sheet);
  }
  const period_s = sheet.number('firmware.share.period');
  for (const id of idsOf(structure, 'shelves')) {
    const path = `shelves.${id}.share_phase`;
    const phase_s = sheet.number(path);
    if (!(phase_s >= period_s)) continue;
    say(
      sheet,
      sheet.cells.get(path)?.origin ?? null,
      path,
      formatQuantity(phase_s, 'time'),
      `less than the share's period, which is ${formatQuantity(period_s, 'time')}`,
      'a task that runs a whole period later is in step again',
    );
  }
}

function checkStuck(unit: string, path: string, sheet: Sheet): void {
  const limit_W = sheet.number(`trays.${unit}.power_limit`);
  const power_W = sheet.number(`${path}.to`);
  if (!(Math.abs(power_W) > limit_W)) return;
  say(
    sheet,
    sheet.cells.get(`${path}.to`)?.origin ?? null,
    `${path}.to`,
    formatQuantity(power_W, 'power'),
    `at most what the converter of ${unit} can, ±${formatQuantity(limit_W, 'power')}`,
    'name less, or raise its power_limit',
  );
}
