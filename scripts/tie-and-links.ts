/**
 * Link bars and shelves of the reference cabinet with its tie closed and open, side by side, with active share and without, whole and
 * with two shelves out: mean current of each over a pulse train, and the largest over the mean of its kind.
 *
 *   node --import tsx scripts/tie-and-links.ts
 */
import { readChanged } from '../src/cli/study/scenarios.ts';
import { run } from '../src/run.ts';
import type { Change } from '../src/scenario/scenario.ts';
import { scenarioFile } from '../src/shipped/scenario-named.ts';

type Way = readonly [words: string, events: readonly string[]];

const shares: readonly Way[] = [
  ['shelves share actively', []],
  ['droop alone', Array.from({ length: 8 }, (_, k) => `share-out S${k + 1} at 0 s`)],
];
const outs: readonly Way[] = [
  ['all shelves', []],
  ['S1 and S2 out', ['shelf-trip S1 at 0 s', 'shelf-trip S2 at 0 s']],
];
const ties: readonly Way[] = [
  ['tie closed', []],
  ['tie open', ['bar-out tie at 0 s']],
];

function worst(of: readonly (readonly [string, number])[]): string {
  const mean = of.reduce((sum, [, x]) => sum + x, 0) / of.length;
  const [id, most] = of.reduce((a, b) => (b[1] > a[1] ? b : a));
  return `${id} ${most.toFixed(0)} A, ${(100 * (most / mean - 1)).toFixed(1)} % over the mean`;
}

/** Mean currents over the second half of the run: what the events leave behind has passed. */
function show(words: string, events: readonly string[]): void {
  const changes: Change[] = [
    { path: 'duration', value: '6.4 s' },
    { path: 'outage', value: 'yes' },
    ...events.map((value) => ({ path: 'events.add', value })),
  ];
  const { scenario } = readChanged({ scenario: scenarioFile('pulse-train'), changes });
  const { recording } = run(scenario, null, { doubt: false }).result;
  const meanOf = (id: string): readonly [string, number] => {
    const k = recording.channels.findIndex((one) => one.id === `${id}.current_A`);
    let [sum, time] = [0, 0];
    for (let b = 0; b < recording.bucketCount; b++) {
      const width = recording.edges_s[b + 1]! - recording.edges_s[b]!;
      if (recording.edges_s[b]! < scenario.duration_s / 2) continue;
      sum += recording.mean[k]![b]! * width;
      time += width;
    }
    return [id, sum / time];
  };
  const links = scenario.bars.links.map(({ id }) => meanOf(id));
  const shelves = scenario.shelves.map(({ id }) => meanOf(id)).filter(([, x]) => x > 1);
  console.log(words);
  console.log(`  links    ${links.map(([id, x]) => `${id} ${x.toFixed(0)} A`).join('  ')}; ${worst(links)}`);
  console.log(`  shelves  ${worst(shelves)}`);
}

for (const [sharing, share] of shares)
  for (const [whole, out] of outs)
    for (const [how, tie] of ties) show(`${sharing}, ${whole}, ${how}`, [...share, ...out, ...tie]);
