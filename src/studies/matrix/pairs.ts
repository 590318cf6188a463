import type { Variant } from '../written/study-file.ts';

/** Every two of some faults at once; those that do the same thing to the same unit are no pair. */
export function pairsOf(faults: readonly Variant[]): readonly Variant[] {
  const able = faults.filter(({ changes }) => changes.some(({ path }) => path === 'events.add'));
  return able.flatMap((a, k) =>
    able.slice(k + 1).flatMap((b): Variant[] => {
      const own = new Set(eventsOf(a));
      if (eventsOf(b).some((event) => own.has(event))) return [];
      const about = [a.about, b.about].filter((words) => words !== undefined && words !== '').join('; and ');
      return [{ name: `${a.name} + ${b.name}`, changes: [...a.changes, ...b.changes], about }];
    }),
  );
}

/** What happens to whom. */
function eventsOf({ changes }: Variant): readonly string[] {
  return changes
    .filter(({ path }) => path === 'events.add')
    .map(({ value }) => value.trim().split(/\s+/).slice(0, 2).join(' '));
}
