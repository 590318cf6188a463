/** A law in TypeScript whose arithmetic is steps (`src/embed/fixed/steps.ts`): what follows it over a run hands them on. */
import type ts from 'typescript';
import type { Reach } from '../../kernel/reach.ts';
import { refused } from '../kinds.ts';
import { Statements } from '../statements.ts';
import type { Writing } from '../writing.ts';
import type { Slots } from './slots.ts';
import { followed } from './spellings.ts';
import { stepText } from './step-text.ts';

export function followedText(reach: Reach, slots: Slots, runs: ts.FunctionDeclaration): string {
  const handedOn = { name: 'steps', type: 'Steps<any>' };
  const writing: Writing = { reach, arrow: '.', types: null, handedOn, steps: stepText(slots, followed) };
  const statements = new Statements(writing, (node) => {
    throw refused(node, 'no declaration names a type there');
  });
  const constants = [...reach.constants].map(
    (one) => `const ${one.name.getText()} = ${slots.all[slots.ofDeclaration(one)]!.value};`,
  );
  const functions = [...reach.functions].map((one) => {
    const taken = one.parameters.map(({ name }) => `${name.getText()}: any`);
    const all = [`${handedOn.name}: ${handedOn.type}`, ...taken].join(', ');
    return `function ${one.name!.text}(${all}): any ${statements.block(one.body!)}`;
  });
  return `(() => {\n${[...constants, ...functions, `return ${runs.name!.text};`].join('\n')}\n})()`;
}
