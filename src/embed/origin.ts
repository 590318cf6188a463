/** Where what is written comes from, so that it can be told again and made again. */
import { oneLine } from '../base/one-line.ts';
import type { Scenario } from '../scenario/scenario.ts';

export interface Origin {
  readonly tool_version: string;
  readonly scenario: Pick<Scenario, 'id' | 'title' | 'inputs' | 'changes' | 'nominal_V'>;
  /** The command that writes the same again. */
  readonly command: string;
}

/** In lines, for the head of a file: texts of a scenario may hold line breaks. */
export function originLines({ tool_version, scenario, command }: Origin): string[] {
  return [
    `Made by buswake ${tool_version} from the scenario ${scenario.id}: ${scenario.title}`,
    ...scenario.inputs.map(({ path, sha256 }) => `  ${path}  sha256 ${sha256}`),
    ...scenario.changes.map(({ path, value }) => `  changed: ${path} = ${value}`),
    `Made again by: ${command}`,
  ].map(oneLine);
}

/**
 * A text as a comment of C holds it: it neither ends there nor begins another. A backslash before the end of a line and
 * a trigraph would be taken away before comments are looked for.
 */
export function inComment(text: string): string {
  return oneLine(text)
    .replaceAll('\\', '\\ ')
    .replaceAll('??', '? ?')
    .replace(/[*/](?=[*/])/g, '$& ');
}
