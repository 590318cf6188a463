/** Curves of a run as a store keeps them: bytes of 64-bit floats as base64, so that every bit stays, NaN too. */
import type { Curves } from '../../measured/curve/curve.ts';

export interface Packed {
  readonly curves: readonly {
    readonly channel: string;
    readonly time_base64: string;
    readonly values_base64: string;
  }[];
  readonly window: Curves['window'];
}

export function packed({ of, window }: Curves): Packed {
  const curves = [...of.values()].map(({ channel, time_s, values }) => ({
    channel,
    time_base64: textOf(time_s),
    values_base64: textOf(values),
  }));
  return { curves, window };
}

export function unpacked({ curves, window }: Packed): Curves {
  const of = curves.map(({ channel, time_base64, values_base64 }) => {
    const curve = { channel, time_s: numbersOf(time_base64), values: numbersOf(values_base64) };
    return [channel, curve] as const;
  });
  return { of: new Map(of), window };
}

function textOf(numbers: Float64Array): string {
  return Buffer.from(numbers.buffer, numbers.byteOffset, numbers.byteLength).toString('base64');
}

function numbersOf(text: string): Float64Array {
  // A copy of its own: a small buffer may lie anywhere in a larger one.
  return new Float64Array(new Uint8Array(Buffer.from(text, 'base64')).buffer);
}
