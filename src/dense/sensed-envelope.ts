/** An envelope through a meter's filters, column by column (`envelope.ts`). */
import { compiled } from './compiled.ts';
import { senseEnvelope } from './envelope.ts';

/** Sections in a row: five terms and two kept values of each (`filters.ts`). */
export interface Sections {
  readonly terms: Float64Array;
  readonly kept: Float64Array;
}

export interface EnvelopeFilters {
  /** Values that each one of the envelope is drawn as. */
  readonly finer: number;
  /** Four weights of each of them. */
  readonly cubics: Float64Array;
  /** Before the square; a multiple of three of them. */
  readonly weighting: Sections;
  /** Behind it, one. */
  readonly smoothing: Sections;
  readonly scale: number;
}

/**
 * What is sensed at each value of `sensed`, of an envelope from one value before the first to two behind the last. The
 * carrier repeats after its length and begins at `from`.
 */
export function senseColumn(
  sensed: Float64Array,
  envelope: Float64Array,
  carrier: Float64Array,
  from: number,
  { finer, cubics, weighting, smoothing, scale }: EnvelopeFilters,
): void {
  const count = sensed.length;
  const period = carrier.length;
  const sections = weighting.kept.length / 2;
  const fast = compiled();
  if (fast === null)
    senseEnvelope(
      sensed,
      envelope,
      new Float64Array(count * finer),
      count,
      finer,
      cubics,
      carrier,
      period,
      from,
      weighting.terms,
      weighting.kept,
      sections,
      smoothing.terms,
      smoothing.kept,
      scale,
    );
  else
    fast.holding(count * finer, (fine) =>
      fast.through(
        [sensed, envelope, cubics, carrier, weighting.terms, weighting.kept, smoothing.terms, smoothing.kept],
        [sensed, weighting.kept, smoothing.kept],
        (...[out, e, weights, wave, terms, kept, terms1, kept1]) =>
          fast.call.senseEnvelope(
            out!,
            e!,
            fine,
            count,
            finer,
            weights!,
            wave!,
            period,
            from,
            terms!,
            kept!,
            sections,
            terms1!,
            kept1!,
            scale,
          ),
      ),
    );
}
