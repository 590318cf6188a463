/** What of a load is drawn from the seed, in words; null where the seed does not matter. */
import type { LoadSpec } from '../scenario/scenario.ts';

export function drawnBy(load: LoadSpec): string | null {
  if ('scatter_s' in load && load.scatter_s > 0) return "each sled's shift";
  switch (load.kind) {
    case 'inference':
      return 'when requests arrive';
    case 'spikes':
      return 'when spikes come';
    case 'training':
      return load.jitter_s > 0 ? 'the length of each iteration' : null;
    case 'pulse-train':
      return load.jitter_s > 0 ? 'the length of each period' : null;
    case 'start-up':
      return load.unsteady_count > 0 ? 'the unsteady iterations' : null;
    case 'recorded':
      return load.reading.coincidence === 'spread' ? 'the shift of each sled against the first' : null;
    default:
      return null;
  }
}
