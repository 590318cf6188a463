/** A kept run made again from what its bundle holds, as far as that needs no engine. */
import type { Report } from '../analysis/judge/report.ts';
import type { Result } from '../engine/result.ts';
import { type Prepared, prepare } from '../request/prepare.ts';
import type { LimitsText } from '../scenario/read.ts';
import type { BundleBytes } from './differences.ts';
import { encodeBundle } from './encode.ts';
import type { Provenance } from './format.ts';
import { KeptSource } from './kept-source.ts';
import { manifestOf } from './manifest-of.ts';
import { unpackInput } from './pack-input.ts';

export interface Rerun extends Prepared {
  /** The bundle that the run made again would be kept in. */
  bundleOf(report: Report, result: Result): BundleBytes;
}

/**
 * What the engine is to run, its limits compared with `shippedLimits` as the kept run's were. Throws BadInput where the
 * kept inputs or the request cannot be run.
 */
export function rerunOf({ request, inputs, build }: Provenance, shippedLimits?: LimitsText): Rerun {
  const source = new KeptSource(inputs.map(unpackInput));
  const prepared = prepare(request, source, shippedLimits === undefined ? {} : { shippedLimits });
  // Only what was asked for: an input that nothing reads would not be in a bundle of this run.
  const asked = source.asked.map((path) => inputs.find((input) => input.path === path)!);
  return {
    ...prepared,
    bundleOf: (report, result) => {
      const { scenario } = prepared;
      const bundle = { report, result, scenario, provenance: { request, inputs: asked, build } };
      const encoded = encodeBundle(bundle);
      return { manifest: manifestOf(bundle, encoded), files: encoded.files };
    },
  };
}
