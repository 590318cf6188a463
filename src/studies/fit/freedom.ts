import { logarithm } from '../../base/logarithm.ts';

/**
 * What an explanation must take away of the sum of squares for each number that it may choose, ln n (G. Schwarz, Annals of
 * Statistics 6(2), 1978): one with many would explain what chance does.
 */
export function perFreedom(samples: number): number {
  return logarithm(samples);
}
