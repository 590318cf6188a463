import { describe, expect, test } from 'vitest';
import { missesPeak, playedOf, playedSentences } from '../../../src/loads/recorded/played.ts';
import { plainReading, readRecorded } from '../../../src/loads/recorded/read-recorded.ts';

/** 100 W over 60 s, with one sample of 900 W at 40 s. */
const rows = Array.from({ length: 121 }, (_, k) => `${k / 2},${k === 80 ? 900 : 100}`);
const load = readRecorded(`t_s,power_W\n${rows.join('\n')}\n`, { file: 'peak.csv', sha256: 'sum' });
const spec = (from_s: number) => ({ from_s, to_s: 60, reading: plainReading });

describe('what a run plays of a recording', () => {
  test('misses the peak that lies behind its end, and says which start plays it', () => {
    const played = playedOf(load, spec(0), 30)!;
    expect(played).toEqual({
      from_s: 0,
      to_s: 30,
      peak_W: 100,
      swing_W: 0,
      fileSwing_W: 800,
      filePeak_W: 900,
      filePeakAt_s: 40,
      betterFrom_s: 25,
    });
    expect(playedSentences(played, 'peak.csv', 60, '--from')).toEqual([
      'Plays peak.csv from 0 s to 30 s of its 60 s; --from moves the start.',
      'The stretch misses the recording\'s peak: it reaches 100 W, the recording 900 W at 40 s (--from "25 s" plays it).',
    ]);
    expect(missesPeak(playedOf(load, spec(played.betterFrom_s), 30)!)).toBe(false);
  });

  test('is a calm stretch where the recording changes more within a second, whatever its peak', () => {
    const calm = Array.from(
      { length: 121 },
      (_, k) => `${k / 2},${k === 10 ? 900 : k > 80 && k % 2 === 1 ? 300 : 850}`,
    );
    const other = readRecorded(`t_s,power_W\n${calm.join('\n')}\n`, { file: 'calm.csv', sha256: 'sum' });
    const played = playedOf(other, spec(0), 30)!;
    expect(missesPeak(played)).toBe(false);
    expect([played.swing_W, played.fileSwing_W]).toEqual([50, 550]);
    expect(playedSentences(played, 'calm.csv', 60, '--from')[1]).toMatch(
      /calm one: it changes by 50 W within a second/,
    );
  });

  test('never asks for a start from which the run would not fit', () => {
    expect(playedOf(load, spec(0), 36)!.betterFrom_s).toBe(22);
    expect(playedOf(load, spec(0), 39.5)!.betterFrom_s).toBe(20.2);
    expect(playedOf(load, spec(0), 50)!.betterFrom_s).toBe(10);
  });

  test('is the whole stretch where sleds are turned round by offsets', () => {
    const spread = { ...spec(0), reading: { ...plainReading, coincidence: 'spread' } as const };
    expect(playedOf(load, spread, 30)).toMatchObject({ to_s: 60, peak_W: 900 });
  });

  test('is nothing outside the recording', () => {
    expect(playedOf(load, { ...spec(70), to_s: 80 }, 5)).toBeNull();
  });
});
