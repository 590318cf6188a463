/** What is said to whoever opens the folder. */
import { cautionsAt } from '../analysis/words/cautions.ts';
import { gainsFile } from './gains-text.ts';
import type { Heard } from './heard.ts';
import { type Origin, originLines } from './origin.ts';
import { replayFile, vectorsFile } from './replay-text.ts';

/** How the folder is compiled, from within it. */
export function compileWords(all: readonly Heard[]): string {
  const sources = [...new Set(all.map(({ inC }) => `${inC.file}.c`))];
  return `cc -std=c99 -O2 -ffp-contract=off -Wall -Wextra -Werror -pedantic -o replay ${replayFile} ${sources.join(' ')}`;
}

/** What the readme says of the numbers. */
export interface NumberWords {
  /** Of the gains, of what the replay says, and of files beside these. */
  readonly gains: string;
  readonly replay: string;
  readonly files: readonly string[];
  /** What is needed and what to expect. */
  readonly needs: string;
  /** More of them, as sections. */
  readonly sections: string;
  readonly careful: string;
}

export const inFloatWords: NumberWords = {
  gains: 'in SI, exact',
  replay: 'says how many numbers differ',
  files: [],
  needs: `It needs C99 with 64-bit IEEE 754 doubles that round to nearest, and no library of mathematics. Every number should be the same
bit for bit. Where it is not: a compiler that joins a product and a sum (\`-ffp-contract=off\` forbids it), that was told to be
fast rather than exact, or that works in another precision (the laws refuse to compile there).
`,
  sections: '',
  careful:
    'Its doubles may be too slow or too large for a small controller: `embed --numbers fixed` writes the same laws in words of 32 bits.',
};

export function readmeText(
  all: readonly Heard[],
  silent: readonly string[],
  origin: Origin,
  numbers: NumberWords,
): string {
  const files = [...new Map(all.map(({ inC }) => [inC.file, inC])).values()];
  return `# Laws of a cabinet's firmware in C

${originLines(origin).join('\n')}

| file | |
|---|---|
${files.map(({ file, runs }) => `| ${file}.h, ${file}.c | the law: structures and \`${runs}\`; translated from the text that the simulator runs |`).join('\n')}
| ${gainsFile} | the gains of this scenario, discrete, ${numbers.gains} |
${all.map((one) => `| ${vectorsFile(one)} | ${one.rows} runs: what the law was told, then what it remembers and commands |`).join('\n')}
| ${replayFile} | runs the laws over the vectors and ${numbers.replay} |
${numbers.files.map((line) => `${line}\n`).join('')}${silent.length === 0 ? '' : `\nLeft out: ${silent.join('; ')}.\n`}
## Compile and compare

\`\`\`sh
${compileWords(all)}
./replay
\`\`\`

${numbers.needs}${numbers.sections}
## On the target

A law has no state of its own and allocates nothing: you own its memory, fill its input, call it once a period and send its
commands on; where ${gainsFile} names phases, once more at each of them, with isDue for the units whose turn it is. Columns have one place for each unit, in the order that ${gainsFile} names. Samples must be as old as the
latency there, or the loop is another one. What decides who takes part, is lost or derated (the flags of an input), and what
guards the hardware, is not in here.

Vectors are words between spaces; a line that begins with # names the columns. Numbers are hexadecimal floating constants as
\`strtod\` of C99 reads them.

## Cautions

This code is not certified and has been through no process of functional safety. What it commands moves kilowatts on stored
energy. The target's own safety case, independent protection, licensed practice and local codes decide whether and how it may
run. ${numbers.careful}

${cautionsAt(origin.scenario.nominal_V).join('\n\n')}
`;
}
