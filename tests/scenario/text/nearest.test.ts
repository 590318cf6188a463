import { describe, expect, it } from 'vitest';
import { editDistance, listed, nearestWords } from '../../../src/scenario/text/nearest.ts';

describe('nearestWords', () => {
  it('counts insertions, deletions, replacements and swaps', () => {
    expect(editDistance('tray', 'tray')).toBe(0);
    expect(editDistance('tray', 'trays')).toBe(1);
    expect(editDistance('tary', 'tray')).toBe(1);
    expect(editDistance('kitten', 'sitting')).toBe(3);
    expect(editDistance('', 'abc')).toBe(3);
  });

  it('gives the nearest first and nothing where nothing is near', () => {
    expect(nearestWords('capactance', ['inductance', 'capacitance', 'esr'])[0]).toBe('capacitance');
    expect(nearestWords('zzzzzz', ['capacitance', 'esr'])).toEqual([]);
  });

  it('lists words as a sentence does', () => {
    expect(listed(['a'])).toBe('a');
    expect(listed(['a', 'b', 'c'])).toBe('a, b or c');
  });
});
