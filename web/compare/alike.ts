/** How far two wakes can be laid over each other: in words, what of time or cabinet is another in each. */
import { duration } from '../numbers.ts';
import type { Record } from '../record.ts';
import type { SideWords } from './traces.ts';

type Compared = Pick<Record, 'edges_s' | 'bucketCount' | 'channels'>;

/** Empty where both show the same stretch of time of the same nodes and trays. */
export function unlike(was: Compared, is: Compared, words: Pick<SideWords, 'before' | 'after'>): string[] {
  return [...unlikeTime(was, is, words), ...unlikeCabinet(was, is, words)];
}

/** Lengths that differ by no more than the grain of what is drawn are the same. */
function unlikeTime(
  was: Compared,
  is: Compared,
  { before, after }: Pick<SideWords, 'before' | 'after'>,
): string[] {
  const [a, b] = [endOf(was), endOf(is)];
  const [first, second] = [was.edges_s[0] ?? 0, is.edges_s[0] ?? 0];
  if (Math.abs(a - b) <= 1e-6 && Math.abs(first - second) <= 1e-6) return [];
  const [from, to] = [Math.max(first, second), Math.min(a, b)];
  const spans = `${before} from ${duration(first)} to ${duration(a)}, ${after} from ${duration(second)} to ${duration(b)}`;
  return to > from
    ? [
        `Other spans of time: ${spans}. From ${duration(from)} to ${duration(to)} one lies over the other; elsewhere one stands alone.`,
      ]
    : [`Other spans of time: ${spans}. They have no moment in common, so nothing lies over anything.`];
}

function unlikeCabinet(
  was: Compared,
  is: Compared,
  { before, after }: Pick<SideWords, 'before' | 'after'>,
): string[] {
  const kinds = [
    ['node-voltage', 'nodes'],
    ['tray-charge', 'trays'],
  ] as const;
  return kinds.flatMap(([kind, name]) => {
    const [mine, theirs] = [was, is].map(
      ({ channels }) => new Set(channels.filter((one) => one.kind === kind).map(({ owner }) => owner)),
    ) as [Set<string>, Set<string>];
    const gone = [...mine].filter((owner) => !theirs.has(owner)).length;
    const come = [...theirs].filter((owner) => !mine.has(owner)).length;
    if (gone + come === 0) return [];
    return [
      `Another cabinet: ${before} has ${mine.size} ${name}, ${after} has ${theirs.size}, ${mine.size - gone} of the same name. Each band goes over all ${name} of its own run.`,
    ];
  });
}

export function endOf({ edges_s, bucketCount }: Pick<Compared, 'edges_s' | 'bucketCount'>): number {
  return edges_s[bucketCount] ?? 0;
}
