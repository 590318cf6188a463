/**
 * Hears the laws of a scenario twice: what their numbers come to decides the formats, and with these the second run, the same
 * again, bounds the difference of each output.
 */
import { BadInput } from '../../base/problem.ts';
import type { RecordedLoad } from '../../loads/recorded/recorded-load.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { type Listened, type Listening, listen } from '../listen.ts';
import { Bounds } from './bounds.ts';
import { type LawFormats, Ranges } from './ranges.ts';
import { nameOf, outputsOf } from './replay-fixed.ts';

export interface FixedPoint {
  readonly listened: Listened;
  readonly formats: LawFormats;
  readonly bounds: Bounds;
}

/** Throws BadInput as `listen` does, and where an output has no bound. */
export function listenFixed(
  scenario: Scenario,
  recorded: RecordedLoad | null,
  { line, onProgress }: Pick<Listening, 'line' | 'onProgress'>,
): FixedPoint {
  const half = (from: number) => (fraction: number) => onProgress?.(from + fraction / 2);
  const ranges = new Ranges();
  const listened = listen(scenario, recorded, { line, besides: ranges.witness, onProgress: half(0) });
  const formats = ranges.formats();
  const bounds = new Bounds(formats);
  listen(scenario, recorded, { line: () => {}, besides: bounds.witness, onProgress: half(0.5) });
  const unbounded = listened.heard.flatMap((heard) =>
    outputsOf(heard)
      .filter(({ field }) => !Number.isFinite(bounds.of(heard.id, field)))
      .map((leaf) => `${nameOf(leaf)} of ${heard.id}`),
  );
  if (unbounded.length > 0)
    throw new BadInput([
      {
        severity: 'error',
        file: scenario.inputs[0]?.path ?? scenario.id,
        found: `no bound on how far fixed point comes from the run: ${unbounded.join(', ')}`,
        expected: 'divisors that stay well above what words of 32 bits resolve',
        mend: 'take --numbers float, or a run whose banks and modules stay in their range',
      },
    ]);
  return { listened, formats, bounds };
}
