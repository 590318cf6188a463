import { describe, expect, it } from 'vitest';
import { Progress, progressWords } from '../../../src/cli/terminal/progress.ts';

describe('progress', () => {
  it('promises no fraction of a second, and nothing before it knows a rate', () => {
    expect([0.01, 0.5, 0.9, 0.99].map((reached) => progressWords(reached, 7))).toEqual([
      '1 %',
      '50 %, about 5 s left',
      '90 %, a few seconds left',
      '99 %, a few seconds left',
    ]);
    expect(progressWords(0.1, 60)).toBe('10 %, about 9 min left');
  });

  it('never goes back, nor claims the whole while anything may come to be wanted', () => {
    const written: string[] = [];
    const { write } = process.stderr;
    const { isTTY } = process.stderr;
    process.stderr.isTTY = true;
    process.stderr.write = ((text: string) => written.push(text) > 0) as typeof write;
    try {
      const progress = new Progress('trays', false);
      for (const fraction of [0.5, 1, 0.94]) progress.at(fraction);
    } finally {
      process.stderr.write = write;
      process.stderr.isTTY = isTTY;
    }
    expect(written.slice(1).map((line) => /(\d+) %/.exec(line)?.[1])).toEqual(['50', '99', '99']);
  });
});
