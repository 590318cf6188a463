/** Steps as C on fixed point has them, and as TypeScript that is followed over a run. */
import type { Spelling } from './step-text.ts';

/** Where a format or a word stands that only the run will tell (`src/embed/fixed/filled.ts`). */
const fraction = (slot: number): string => (slot === 0 ? '0' : `{${slot}}`);

export const inFixedPoint: Spelling = {
  step: (name, operands, into) =>
    `${name}(${operands.map(({ text, slot }) => `${text}, ${fraction(slot)}`).join(', ')}, ${fraction(into)})`,
  order: (a, b) => `orderOf(${a.text}, ${fraction(a.slot)}, ${b.text}, ${fraction(b.slot)})`,
  read: (text) => text,
  negative: (text) => `-${text}`,
  wholeNumber: (text) => text,
  constant: (value, slot) => `{${slot}:${value}}`,
};

export const followed: Spelling = {
  step: (name, operands, into) => `steps.${name}(${operands.map(({ text }) => text).join(', ')}, ${into})`,
  order: (a, b) => `steps.orderOf(${a.text}, ${b.text})`,
  read: (text, slot) => `steps.read(${text}, ${slot})`,
  negative: (text) => `steps.negative(${text})`,
  wholeNumber: (text) => `steps.whole(${text})`,
  constant: (value, slot) => `steps.read(${value}, ${slot})`,
};
