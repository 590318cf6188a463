/**
 * Which golden values stand on an edge: each scenario again with the droop of its shelves a billionth and a millionth higher
 * and at half the step, and by what part of its bound each value moves.
 *
 *   node --import tsx scripts/golden-edges.ts              all, some minutes
 *   node --import tsx scripts/golden-edges.ts line-sag idle
 */
import { run } from '../src/run.ts';
import type { Changes } from '../tests/engine/runs.ts';
import { shippedWith } from '../tests/engine/runs.ts';
import { boundOf, bounds, type GoldenMetric, goldens } from '../tests/golden/goldens.ts';

const asked = process.argv.slice(2);
const metrics = Object.keys(bounds) as GoldenMetric[];

for (const [name, golden] of Object.entries(goldens)) {
  if (asked.length > 0 && !asked.includes(name)) continue;
  const report = (changes: Changes) => run(shippedWith(name, changes), null).report;
  const droop_ohm = shippedWith(name).shelves[0]!.values.droop_ohm;
  const nudges: readonly (readonly [string, Changes])[] = [
    ['droop × (1 + 1e-9)', { 'shelves.droop': `${droop_ohm * (1 + 1e-9)} ohm` }],
    ['droop × (1 + 1e-6)', { 'shelves.droop': `${droop_ohm * (1 + 1e-6)} ohm` }],
    ['half the step', { step: '25 us' }],
  ];
  const base = report({});
  for (const [nudge, changes] of nudges) {
    const nudged = report(changes);
    const moved = metrics
      .map((metric) => {
        const by = Math.abs((nudged.metrics[metric] ?? 0) - (base.metrics[metric] ?? 0));
        return { metric, part: by / boundOf(golden, metric), value: nudged.metrics[metric] };
      })
      .filter(({ part }) => part > 0.3)
      .map(
        ({ metric, part, value }) => `${metric} ${value?.toPrecision(5)}, ${part.toFixed(2)} of its bound`,
      );
    console.log(`${name}, ${nudge}: ${moved.join('; ') || 'as it was'}`);
  }
}
