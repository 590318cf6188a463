/**
 * Probabilities to draw at, one row per sample and one column per variable. A row depends on seed, number of
 * samples and its own place alone, so that samples can be run anywhere in any order.
 */
import { Random } from '../../loads/random.ts';

export type Sampling = 'latin-hypercube' | 'plain';

/** Most samples, so that rows and columns have seeds of their own. */
export const mostSamples = 500_000;

const span = 1_048_576;

export class Sampler {
  readonly #sampling: Sampling;
  readonly #samples: number;
  readonly #variables: number;
  readonly #seed: number;
  /** Latin hypercube: for each variable the order in which its strata are taken. */
  readonly #orders: readonly Uint32Array[];

  constructor(sampling: Sampling, samples: number, variables: number, seed: number) {
    this.#sampling = sampling;
    this.#samples = samples;
    this.#variables = variables;
    this.#seed = seed;
    this.#orders =
      sampling === 'plain'
        ? []
        : Array.from({ length: variables }, (_, j) =>
            shuffled(samples, new Random(seed * span + mostSamples + j)),
          );
  }

  /** Row of one sample, each strictly between 0 and 1. */
  row(sample: number): Float64Array {
    const random = new Random(this.#seed * span + sample);
    const row = new Float64Array(this.#variables);
    for (let j = 0; j < row.length; j++) {
      // The middle of a step of 2^-32, so that neither 0 nor 1 comes up.
      const u = random.uniform() + 2 ** -33;
      row[j] = this.#sampling === 'plain' ? u : (this.#orders[j]![sample]! + u) / this.#samples;
    }
    return row;
  }
}

/** 0 to n − 1 in random order (Fisher and Yates). */
function shuffled(n: number, random: Random): Uint32Array {
  const order = Uint32Array.from({ length: n }, (_, k) => k);
  for (let k = n - 1; k > 0; k--) {
    const j = Math.floor(random.uniform() * (k + 1));
    const kept = order[k]!;
    order[k] = order[j]!;
    order[j] = kept;
  }
  return order;
}
