import { describe, expect, it } from 'vitest';
import { wordsOf } from '../../../web/study/words.ts';

const { text, key } = wordsOf({ 'bus-floor': 'Bus never below 86 %', trim: 'Trim at its clamp' });

describe('words of a study', () => {
  it('take the place of ids and paths in a sentence', () => {
    expect(text('bus-floor 42 V: firmware.share.time_constant 20 ms, trays.T4.fitted = no.')).toBe(
      'Bus never below 86 % 42 V: share time constant 20 ms, trays T4 fitted = no.',
    );
  });

  it('leave alone what only looks like a key', () => {
    for (const sentence of [
      'models/shelf-36kw.yaml and bench.csv, e.g. node A.S1',
      'a bus-floor-like shape, bus-floors, 0.5 V',
      'the trim of the load. then it ends.',
    ])
      expect(text(sentence)).toBe(sentence);
  });

  it('are known of a key that stands alone, a word without a dash too', () => {
    expect([key('trim'), key('shelves.droop'), key('bench.csv'), key('200 kW')]).toEqual([
      'Trim at its clamp',
      'shelves droop',
      null,
      null,
    ]);
  });

  it('are none where a report names no limits', () => {
    expect(wordsOf({}).text('bus-floor')).toBe('bus-floor');
  });
});
