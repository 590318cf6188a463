import { isFigure, type Objective } from './objectives.ts';
import type { Design, DesignsPlan } from './plan.ts';

/**
 * Sums of figures that are the same for all values of a path, whatever the other paths are: what it changes may cost
 * nothing, or nobody said what it costs.
 */
export function blindAxes({
  axes,
  designs,
  objectives,
}: Pick<DesignsPlan, 'axes' | 'designs' | 'objectives'>): readonly {
  readonly objective: Objective;
  readonly paths: readonly string[];
}[] {
  return objectives.filter(isFigure).flatMap((objective) => {
    const total = ({ bill }: Design): number => bill.totals[objective]!;
    const paths = axes
      .filter(({ values }) => values.length > 1)
      .map(({ path }) => path)
      .filter((path) => {
        const byOthers = new Map<string, number>();
        return designs.every((design) => {
          const others = JSON.stringify(Object.entries(design.values).filter(([own]) => own !== path));
          const before = byOthers.get(others);
          byOthers.set(others, total(design));
          return before === undefined || before === total(design);
        });
      });
    return paths.length === 0 ? [] : [{ objective, paths }];
  });
}
