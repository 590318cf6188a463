/**
 * A law in C99, made from the TypeScript that the engine runs: a header of structures and a text of functions, without any
 * library. On 64-bit floats the C does the same additions and products in the same order, so it gives the same bits
 * where the compiler keeps to that (`-ffp-contract=off`, no fast mathematics). On fixed point every operation is a step
 * between stated formats; the formats are left open until a run has shown its ranges.
 *
 * What it takes: functions that stand by themselves; interfaces of numbers, `Int`, flags and columns; `const`, `let`, `if`,
 * `for`, `return`, `continue`, `?:`; + − × ÷ and comparisons; `Math.round`. Anything else is refused with file and line.
 */
import type ts from 'typescript';
import type { LawInC, Member } from '../../src/embed/law-in-c.ts';
import { Reach } from '../kernel/reach.ts';
import { nearestWhole } from './beside.ts';
import { type Beside, CText, lawFile } from './c-text.ts';
import { expressionText, given } from './expressions.ts';
import { inFloats, inWords, kindOfType } from './kinds.ts';
import { followedText } from './steps/followed-text.ts';
import { Slots } from './steps/slots.ts';
import { inFixedPoint } from './steps/spellings.ts';
import { stepText } from './steps/step-text.ts';
import type { Writing } from './writing.ts';

export interface Translated {
  readonly inC: LawInC;
  /** The law in TypeScript whose arithmetic is steps, as an expression. */
  readonly followed: string;
}

/** Translates the law that the module `entry` of a program exports, and all that it calls. */
export function translateLaw(entry: string, program: ts.Program): Translated {
  const reach = new Reach(program, entry);
  const runs = [...reach.given].filter((one) => one.name!.text.startsWith('run'));
  if (runs.length !== 1)
    throw new Error(`${entry}: one function of a law is called run…, not ${runs.length}`);
  const plain: Writing = { reach, arrow: '->', types: inFloats, handedOn: null, steps: null };
  const slots = new Slots(reach);
  const stepped: Writing = { ...plain, types: inWords, steps: stepText(slots, inFixedPoint) };
  const floats = new CText(plain, inFloats, besideFloats(plain));
  const structures = floats.ordered();
  return {
    inC: {
      file: lawFile(entry),
      ...floats.texts(entry),
      fixed: { ...new CText(stepped, inWords, besideWords(slots)).texts(entry), slots: slots.all },
      structures: Object.fromEntries(
        structures.map((of) => [
          of.name!.text,
          reach.fieldsOf(of).map(({ name: field, type }) => member(field, type)),
        ]),
      ),
      runs: runs[0]!.name!.text,
      parameters: runs[0]!.parameters.map(({ name: taken, type }) => member(taken, type)),
      sources: reach.sources(),
    },
    followed: followedText(reach, slots, runs[0]!),
  };
}

const member = (name: ts.Node, type: ts.TypeNode | undefined): Member => [name.getText(), kindOfType(type!)];

const besideFloats = (writing: Writing): Beside => ({
  includes: '#include <float.h>\n\n',
  guard: `#if FLT_EVAL_METHOD != 0\n#error "doubles are worked out in another precision here: the bits would differ"\n#endif\n`,
  constant: (of) => expressionText(writing, of.initializer!),
  functions: (text) => (text.includes(given['Math.round']!) ? [nearestWhole] : []),
  field: () => '',
});

const besideWords = (slots: Slots): Beside => ({
  includes: '#include "fixed_point.h"\n',
  guard: '',
  constant: (of) => {
    const slot = slots.ofDeclaration(of);
    return `{${slot}:${slots.all[slot]!.value}}`;
  },
  functions: () => [],
  field: (of) => {
    const kind = of.type === undefined ? '' : kindOfType(of.type);
    return kind === 'number' || kind === 'Float64Array' ? ` /* {q${slots.ofDeclaration(of)}} */` : '';
  },
});
