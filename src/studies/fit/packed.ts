/** Streams of a run as a store keeps them: bytes of 64-bit floats as base64, so that every bit stays, NaN too. */
import type { Result, Stream } from '../../engine/result.ts';

/** What a fit takes of a run. */
export type Simulated = Pick<Result, 'streams'>;

export type Packed = readonly (Omit<Stream, 'samples'> & { readonly samples_base64: string })[];

export function packed({ streams }: Simulated): Packed {
  return streams.map(({ samples, ...stream }) => ({
    ...stream,
    samples_base64: Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength).toString('base64'),
  }));
}

export function unpacked(streams: Packed): Simulated {
  return {
    streams: streams.map(({ samples_base64, ...stream }) => ({
      ...stream,
      // A copy of its own: a small buffer may lie anywhere in a larger one.
      samples: new Float64Array(new Uint8Array(Buffer.from(samples_base64, 'base64')).buffer),
    })),
  };
}
