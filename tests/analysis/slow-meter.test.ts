/** What a meter of 1 to 2 s can show: limits over ten seconds and hours, and the breaker's RMS; nothing faster. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { readQuantity } from '../../src/base/quantity.ts';
import { plainReading, readRecorded } from '../../src/loads/recorded/read-recorded.ts';

const { rows } = parse(readFileSync('models/limits-default.yaml', 'utf8')) as {
  rows: Record<string, { needs?: string }>;
};

/** Limits that a recording of one sample every `every_s` can be judged against. */
function judgedAt(every_s: number): Set<string> {
  const csv = Array.from({ length: 60 }, (_, k) => `${k * every_s},${1000 + (k % 7)}`).join('\n');
  const { bandwidth_Hz } = readRecorded(
    `t_s,power_W\n${csv}\n`,
    { file: 'slow.csv', sha256: 'sum' },
    plainReading,
  ).statement;
  return new Set(
    Object.entries(rows)
      .filter(([, { needs }]) => {
        const read = needs === undefined ? null : readQuantity(needs, 'frequency');
        return read?.ok === true && read.value <= bandwidth_Hz;
      })
      .map(([id]) => id),
  );
}

describe('a slow meter', () => {
  test('of 2 s judges the breaker and the recharge, and nothing of the bus', () => {
    const judged = judgedAt(2);
    for (const id of ['line-current-continuous', 'line-current-short', 'battery-recharge']) {
      expect(judged).toContain(id);
    }
    expect([...judged].filter((id) => id.startsWith('bus-') || id.startsWith('share-'))).toEqual([]);
  });

  test('of 1 s judges the steady bus and charge too, and no ripple, peak or flicker', () => {
    const judged = judgedAt(1);
    for (const id of ['bus-steady-low', 'tray-charge-low', 'shelf-continuous', 'ac-ramp-1s']) {
      expect(judged).toContain(id);
    }
    for (const id of ['flicker-pst', 'shelf-peak', 'ac-ripple-3-20', 'bus-20ms-low', 'bar-heat']) {
      expect(judged).not.toContain(id);
    }
  });
});
