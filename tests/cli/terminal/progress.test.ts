import { describe, expect, it, vi } from 'vitest';
import { Progress, progressWords } from '../../../src/cli/terminal/progress.ts';
import { withLine } from '../../../src/cli/terminal/reading-line.ts';
import { planDesigns } from '../../../src/studies/designs/plan.ts';
import { contextHere, studyOf } from '../../studies/here.ts';

/** What `work` writes to stderr where that is a terminal. */
function onTerminal(work: () => void): string[] {
  return writtenBy(work, true);
}

function writtenBy(work: () => void, terminal: boolean): string[] {
  const written: string[] = [];
  const { write, isTTY } = process.stderr;
  process.stderr.isTTY = terminal;
  process.stderr.write = ((text: string) => written.push(text) > 0) as typeof write;
  try {
    work();
  } finally {
    process.stderr.write = write;
    process.stderr.isTTY = isTTY;
  }
  return written;
}

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
    const written = onTerminal(() => {
      const progress = new Progress('trays', false);
      for (const fraction of [0.5, 1, 0.94]) progress.at(fraction);
    });
    expect(written.slice(1).map((line) => /(\d+) %/.exec(line)?.[1])).toEqual(['50', '99', '99']);
  });

  it('stands in a file as plain lines, after half a minute and each time twice as long, none where it is quiet', () => {
    const told = (quiet: boolean): string[] => {
      vi.useFakeTimers({ toFake: ['performance'] });
      try {
        return writtenBy(() => {
          const progress = new Progress('trays', quiet);
          // A trial every ten seconds, five minutes long.
          for (let k = 1; k <= 30; k++) {
            vi.advanceTimersByTime(10_000);
            progress.at(k / 40);
          }
          progress.clear();
        }, false);
      } finally {
        vi.useRealTimers();
      }
    };
    expect(told(false)).toEqual([
      'running trays: 7 %, about 6 min left\n',
      'running trays: 15 %, about 6 min left\n',
      'running trays: 30 %, about 5 min left\n',
      'running trays: 60 %, about 3 min left\n',
    ]);
    expect(told(true)).toEqual([]);
  });

  it('is told while a grid of designs is read, once that takes a while, and is gone behind it', () => {
    vi.useFakeTimers({ toFake: ['performance'] });
    const study = studyOf('designs', 'bench-step', {
      vary: [['trays.esr', '1 mΩ | 2 mΩ | 3 mΩ | 4 mΩ']],
      words: { objectives: 'losses' },
    });
    const { read } = contextHere();
    const slowly: typeof read = (of) => {
      vi.advanceTimersByTime(150);
      return read(of);
    };
    const written = onTerminal(() =>
      withLine((say) =>
        planDesigns(study, slowly, (done, all) => say(() => `reading designs: ${done} of ${all}`)),
      ),
    );
    vi.useRealTimers();
    const told = written.map((text) => text.replace('\r\u001b[2K', ''));
    expect(told.length).toBeGreaterThan(2);
    expect(told.slice(0, -1).every((text) => /^reading designs: [0-3] of 4$/.test(text))).toBe(true);
    expect(told.at(-1)).toBe('');
  });
});
