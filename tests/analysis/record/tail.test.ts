/** What stands for a run that goes on: settled, still moving, still changing. */
import { describe, expect, it } from 'vitest';
import { caseOf } from '../../../src/analysis/record/case.ts';
import { tailOf } from '../../../src/analysis/record/tail.ts';
import { demandOf, resultOf, scenarioOf, span } from '../fixture.ts';

const base = resultOf();
const channel = { id: 'L1.current_A', kind: 'bar-current' as const, owner: 'L1', unit: 'A' as const };

/** Twelve seconds; the mean square of each of its twelve rounds, added up from each to the end. */
function running(square: (round: number) => number, spans: readonly unknown[], rounds = 12) {
  const from = (k: number) => {
    const rest = Array.from({ length: rounds - k }, (_, j) => square(k + j));
    const rms = Math.sqrt(rest.reduce((a, b) => a + b, 0) / rest.length);
    return { channel: channel.id, mean: rms, rms };
  };
  return caseOf(scenarioOf({}), demandOf(), {
    ...base,
    window: { from_s: 0, to_s: 12 },
    spans: spans as never,
    recording: { ...base.recording, channels: [channel] },
    meanSquares: [from(0)],
    rounds: Array.from({ length: rounds - 1 }, (_, k) => ({
      from_s: (12 / rounds) * (k + 1),
      squares: [from(k + 1)],
    })),
  });
}

const lost = [span('carrying', 'B1', 1, 12)];

describe('the end of a run', () => {
  it('is all of it where nothing happened', () => {
    const { from_s, squares, unsettled } = tailOf(running((k) => 100 + k, []));
    expect([from_s, squares[0]!.rms, unsettled]).toEqual([0, Math.sqrt(105.5), null]);
  });

  it('is the last third of one with an event, and stands for it where its halves are alike', () => {
    const { from_s, squares, unsettled } = tailOf(
      running((k) => (k < 7 ? 900 : 400), [{ ...lost[0], open: true }]),
    );
    expect([from_s, squares[0]!.rms, unsettled]).toEqual([8, 20, null]);
  });

  it('does not stand for it while a current moves from one half of it to the other', () => {
    // 10 % of the RMS: from 20 A to 22 A.
    const tail = tailOf(running((k) => (k < 10 ? 400 : 484), [{ ...lost[0], open: true }]));
    expect(tail.unsettled).toBe(
      'the RMS current of L1 still moves by 9.1 % in what stands for the rest of it from 8 s on',
    );
    expect(tailOf(running((k) => (k < 10 ? 400 : 404), [{ ...lost[0], open: true }])).unsettled).toBeNull();
  });

  it('of one round is held against the round before it', () => {
    const tail = tailOf(running((k) => [900, 400, 484][k]!, [{ ...lost[0], open: true }], 3));
    expect(tail.unsettled).toMatch(/^the RMS current of L1 still moves by 9\.1 %/);
  });

  it('does not stand for it where something changes within it', () => {
    const tail = tailOf(running(() => 400, [...lost, span('walk-in', 'S1', 2, 10.5)]));
    expect(tail.unsettled).toBe(
      'something still changes at 12 s, within what stands for the rest of it from 8 s on',
    );
  });
});
