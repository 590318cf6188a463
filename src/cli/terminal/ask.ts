/** Asks somebody at a terminal, one question a line; an empty answer leaves it open. */
import { createInterface } from 'node:readline/promises';
import { BadInput } from '../../base/problem.ts';

/** A question, an answer to it as an example, and what holds where it is left open; null: it must be answered. */
export interface Asked {
  readonly asks: string;
  readonly example: string;
  readonly usual: string | null;
}

/** How a line is asked for and read. */
export type Line = (question: string) => Promise<string>;

/** Answers by the names of the questions. Throws BadInput where nobody is there to answer. */
export async function askedFor<K extends string>(
  asked: Readonly<Record<K, Asked>>,
  line: Line | null = null,
): Promise<Partial<Record<K, string>>> {
  if (line !== null) return answersTo(asked, line);
  const [first] = Object.entries<Asked>(asked).find(([, { usual }]) => usual === null) ?? [''];
  if (process.stdin.isTTY !== true) {
    throw new BadInput([
      {
        severity: 'error',
        found: 'no answers, and no terminal to ask at',
        expected: `--${first} at least`,
        mend: `give --${first} "${asked[first as K].example}"`,
      },
    ]);
  }
  // Questions go where progress goes: standard output is the result.
  const terminal = createInterface({ input: process.stdin, output: process.stderr });
  try {
    return await answersTo(asked, (question) => terminal.question(question));
  } finally {
    terminal.close();
  }
}

async function answersTo<K extends string>(
  asked: Readonly<Record<K, Asked>>,
  line: Line,
): Promise<Partial<Record<K, string>>> {
  const answers: Partial<Record<K, string>> = {};
  for (const [key, { asks, example, usual }] of Object.entries<Asked>(asked)) {
    const open = usual === null ? '' : ` [${usual}]`;
    const answer = (await line(`${asks}, like ${example}${open}: `)).trim();
    if (answer !== '') answers[key as K] = answer;
  }
  return answers;
}
