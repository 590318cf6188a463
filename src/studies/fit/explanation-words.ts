/** What would explain a misfit, in words, and what to do then. */
import { numberText } from '../../analysis/words/number-text.ts';
import { formatPercent } from '../../base/quantity.ts';
import { bare, unitOfChannel } from '../../measured/measured-unit.ts';
import type { Stretch } from './faults/fault.ts';
import type { Explanation } from './would-explain.ts';

export interface ExplanationWords {
  /** Without a full stop. */
  readonly clause: string;
  /** A sentence. */
  readonly mend: string;
}

const parts = 'Give the parts as files of their own.';

export function explanationWords(one: Explanation): ExplanationWords {
  switch (one.kind) {
    case 'parameter':
      return { clause: `${one.path} differs from its kept value`, mend: `Adjust it: --adjust ${one.path}.` };
    case 'sign':
      return {
        clause: `the sign of ${one.path} is turned${during(one)}`,
        mend: isWhole(one) ? `Turn the probe, or declare it: --sensor "${one.path}=KIND, scale -1".` : parts,
      };
    case 'unit': {
      const { path, factor } = one;
      const name = `${bare(path)}_${factor > 1 ? 'm' : 'k'}${unitOfChannel(path)}`;
      return {
        clause: `readings of ${path} are ${numberText(factor, '')} times what its unit says${during(one)}`,
        mend: isWhole(one) ? `Write the unit into the name of its column, such as ${name}.` : parts,
      };
    }
    case 'gain': {
      const factor = Number(one.gain_ratio.toPrecision(4));
      return {
        clause: `readings of ${one.path} are ${factor} times what they should be${during(one)}`,
        mend: isWhole(one)
          ? `Check its scale; where the factor is known, declare it: --sensor "${one.path}=KIND, scale ${factor}".`
          : 'Look at what happened there: a range that was switched, or a stretch of time that is missing. Give the parts as files of their own.',
      };
    }
    case 'bias': {
      const off = numberText(one.bias, unitOfChannel(one.path));
      return { clause: `the zero of ${one.path} is off by ${off}`, mend: 'Check it with nothing connected.' };
    }
    case 'drift': {
      const by = numberText(one.by, unitOfChannel(one.path));
      return {
        clause: `the zero of ${one.path} drifts by ${by} from the first reading to the last`,
        mend: 'Let the instrument warm up, and check its zero before and after.',
      };
    }
    case 'wander':
      return {
        clause: `the zero of ${one.path} wanders slowly, by ${numberText(one.rms, unitOfChannel(one.path))} RMS`,
        mend: 'Check the instrument; or the model lacks something slow.',
      };
    case 'exchanged':
      return {
        clause: `${one.path} and ${one.other} are exchanged`,
        mend: 'Exchange their columns by --map.',
      };
    case 'readings':
      return { clause: `some readings of ${one.path} are none: ${one.words}`, mend: 'Leave these rows out.' };
    case 'delay': {
      const way = one.later_s > 0 ? 'ahead of' : 'behind';
      return {
        clause: `${one.path} is ${time(one.later_s)} ${way} the other channels at the same stamps`,
        mend: 'Correct its stamps, or those of the others.',
      };
    }
    case 'averaged':
      return {
        clause: `readings are means over about ${time(one.over_s)} before their stamps, and no instants`,
        mend: `Declare it: --sensor "CHANNEL=KIND, averaging ${time(one.over_s)}" for each; or measure at instants.`,
      };
    case 'time lost': {
      const [way, fate] = one.later_s > 0 ? ['later', 'is missing'] : ['earlier', 'is there twice'];
      return {
        clause: `a stretch of time ${fate} between the stamps, for from about ${numberText(one.from_s, 's', 2)} of the run on the measurement lies ${time(one.later_s)} ${way} than before`,
        mend: parts,
      };
    }
    case 'stamps':
      return {
        clause: `the stamps jump by ${time(one.by_s)} at ${numberText(one.at_s, 's')} of the file while readings go on, as where a clock is set`,
        mend: 'Take that out of the later stamps, or give the parts as files of their own.',
      };
    case 'place':
      return {
        clause: `the measurement begins at ${numberText(one.at_s, 's')} of the run, and not at the stated ${numberText(one.stated_s, 's')}`,
        mend: 'Check --measured-at, or leave it out.',
      };
    case 'clock':
      return {
        clause: `the stamps run ${formatPercent(Math.abs(one.fast_ratio), 2)} ${one.fast_ratio > 0 ? 'fast' : 'slow'}`,
        mend: 'Correct them.',
      };
  }
}

function time(seconds: number): string {
  return numberText(Math.abs(seconds), 's', 2);
}

function isWhole({ from_s, to_s }: Stretch): boolean {
  return from_s === null && to_s === null;
}

function during({ from_s, to_s }: Stretch): string {
  const from = from_s === null ? '' : ` from ${numberText(from_s, 's', 3)} of the run on`;
  return to_s === null ? from : ` until ${numberText(to_s, 's', 3)} of the run`;
}
