/** What a reviewer adds to a scenario: limits waived with a reason, and conditions that the verdict rests on. */
import type { Problem } from '../../base/problem.ts';
import { isDay } from '../day.ts';
import type { Waiver } from '../scenario.ts';
import { asBranch, asLeaf, joined, refuseUnknownKeys, required } from '../text/branches.ts';
import { type Branch, problemAt } from '../text/document.ts';
import { editDistance, listed, nearestWords } from '../text/nearest.ts';
import type { Origin } from '../text/origin.ts';

export interface SignOff {
  readonly waivers: readonly Waiver[];
  readonly conditions: readonly string[];
}

/** A waiver with the place it was written at, so that a limit nobody knows can be named there. */
interface PlacedWaiver extends Waiver {
  readonly origin: Origin;
}

/**
 * Reads `waivers:` and `conditions:`, adds those of the command line, and refuses waivers of limits that the
 * cabinet does not have. Without a problem the result is whole.
 */
export function readSignOff(
  root: Branch,
  limits: readonly string[] | null,
  asked: readonly Waiver[],
  problems: Problem[],
): SignOff {
  const origin: Origin = { file: '--waive', line: 0, column: 0 };
  const waivers = [...readWaivers(root, problems), ...asked.map((waiver) => ({ ...waiver, origin }))];
  for (const { reason } of asked)
    if (saysNothing(reason))
      problems.push(
        problemAt(origin, 'waivers', 'no reason', 'why it may be waived', 'write it behind the equals sign'),
      );
  for (const { limit, origin: at } of waivers) {
    // Without a cabinet nobody knows its limits; that is said elsewhere.
    if (limits === null || limits.includes(limit)) continue;
    const mend = `nearest: ${listed(nearestIds(limit, limits))}`;
    problems.push(problemAt(at, 'waivers', limit, 'the id of a limit of this cabinet', mend));
  }
  return {
    waivers: waivers.map(({ origin: _origin, ...waiver }) => waiver),
    conditions: readConditions(root, problems),
  };
}

/** Ids that are spelled alike, or share a word, or else the least far off: some are always named. */
function nearestIds(word: string, ids: readonly string[]): string[] {
  const near = nearestWords(word, ids);
  if (near.length > 0) return near;
  const words = word
    .toLowerCase()
    .split(/[^a-z0-9]+/)
    .filter((part) => part.length > 2);
  const shared = ids.filter((id) => words.some((part) => id.includes(part)));
  if (shared.length > 0) return shared.slice(0, 4);
  return [...ids].sort((a, b) => editDistance(word, a) - editDistance(word, b)).slice(0, 3);
}

function readWaivers(root: Branch, problems: Problem[]): PlacedWaiver[] {
  const node = root.entries.get('waivers')?.node;
  if (node === undefined) return [];
  if (node.kind !== 'row') {
    problems.push(
      problemAt(
        node.origin,
        'waivers',
        'no list',
        'a list of waivers',
        'write - { limit: ac-ramp-100ms, reason: …, by: reviewer, until: 2030-06-30 }',
      ),
    );
    return [];
  }
  return node.items.flatMap((item, i) => {
    const path = `waivers.${i + 1}`;
    const branch = asBranch(item, path, problems);
    if (branch === null) return [];
    refuseUnknownKeys(branch, ['limit', 'reason', 'by', 'until'], path, problems);
    const word = (key: string, means: string): string => {
      const entry = required(branch, key, path, means, problems);
      const leaf = entry === null ? null : asLeaf(entry.node, joined(path, key), problems);
      if (leaf !== null && saysNothing(leaf.text)) {
        problems.push(
          problemAt(leaf.origin, joined(path, key), 'nothing', means, 'write it after the colon'),
        );
      }
      return leaf?.text ?? '';
    };
    const limit = word('limit', 'the id of the limit that is waived');
    const reason = word('reason', 'why it may be waived');
    const by = word('by', 'who waives it: a role or initials');
    const until = branch.entries.has('until') ? word('until', 'the last day it holds') : null;
    if (until !== null && until !== '' && !isDay(until)) {
      const at = branch.entries.get('until')!.node.origin;
      problems.push(problemAt(at, joined(path, 'until'), until, 'a day', 'write it like 2030-06-30'));
    }
    return limit === '' ? [] : [{ limit, reason, by, until, origin: branch.origin }];
  });
}

function readConditions(root: Branch, problems: Problem[]): string[] {
  const node = root.entries.get('conditions')?.node;
  if (node === undefined) return [];
  if (node.kind !== 'row') {
    problems.push(
      problemAt(node.origin, 'conditions', 'no list', 'a list of sentences', 'write - one sentence per line'),
    );
    return [];
  }
  return node.items.flatMap((item, i) => {
    const path = `conditions.${i + 1}`;
    const leaf = asLeaf(item, path, problems);
    if (leaf !== null && saysNothing(leaf.text))
      problems.push(
        problemAt(
          leaf.origin,
          path,
          'nothing',
          'what the verdict rests on',
          'write a sentence, or leave it out',
        ),
      );
    return leaf?.text ?? [];
  });
}

/** Without a letter or a digit nobody can read it. */
function saysNothing(text: string): boolean {
  return !/[\p{L}\p{N}]/u.test(text);
}
