/** What is known of a quantity over time: values in buckets, and where the buckets lie. */

/** Smallest and largest value per bucket of one quantity, or of several together. */
export interface Band {
  readonly min: Float32Array;
  readonly max: Float32Array;
}

/** One quantity: its mean too. */
export interface Series extends Band {
  readonly mean: Float32Array;
}

/** Buckets of time: where close-ups are, each of their moments has one of its own. */
export interface Buckets {
  readonly edges_s: Float64Array;
  /** The moment whose value a bucket holds; NaN where it stands for a stretch. */
  readonly moments_s: Float64Array;
}
