/** Checks of the run and its load: lengths, starts, levels and stretches that fit together. */
import { formatQuantity } from '../../base/quantity.ts';
import type { LoadSpec } from '../scenario.ts';
import type { Sheet } from '../sheet.ts';
import type { Origin } from '../text/origin.ts';
import { say } from '../text/say.ts';
import { wholeTicks } from '../ticks.ts';

export function checkRun(loadKind: LoadSpec['kind'] | null, sheet: Sheet): void {
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
    say(
      sheet,
      at('from') ?? at('to'),
      'load.from',
      from,
      `before the end of the stretch, ${to}`,
      'start earlier, or end later',
    );
  }
  const peak = sheet.numberOrNull('load.peak');
  const scale = sheet.numberOrNull('load.scale');
  // A number of copies alone is a scale too.
  const copies = sheet.numberOrNull('load.reading.copies');
  const scaled = peak !== null || scale !== null || copies !== null;
  if (!scaled || (peak !== null && scale !== null)) {
    say(
      sheet,
      at('file'),
      'load.peak',
      peak === null ? 'neither peak nor scale' : 'both peak and scale',
      'one of them',
      peak === null ? 'write peak: 200 kW, or scale: 1 to play it as recorded' : 'leave one out',
    );
  }
}
