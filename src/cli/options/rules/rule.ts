/**
 * What options ask of each other, as data. An option that has nothing to act on, or that another one contradicts, would
 * be passed over in silence: it is refused with the way out before anything is read.
 */
import type { Command } from 'commander';
import { BadInput, type Problem } from '../../../base/problem.ts';

/** The options of one command line, by their long flags; what holds by default was not given. */
export interface Given {
  has(flag: string): boolean;
  value(flag: string): unknown;
  /** The words that are no option. */
  readonly words: readonly string[];
}

/** One option, and what is wrong with it beside the others that were given; null where it may stand. */
export interface OptionRule {
  readonly option: string;
  /** The other options that it looks at. */
  readonly beside: readonly string[];
  against(given: Given): Wrong | null;
}

type Wrong = Pick<Problem, 'found' | 'expected' | 'mend'>;

/** What to do instead: a sentence, or one that depends on what else was given. */
type WayOut = string | ((given: Given) => string);

/** The option acts only where one of `others` is given. */
export function needs(
  option: string,
  others: readonly string[],
  expected: string,
  mend: WayOut,
  without = others.join(' or '),
): OptionRule {
  return rule(option, others, (given) =>
    others.some((other) => given.has(other))
      ? null
      : { found: `${option} without ${without}`, expected, mend: said(mend, given) },
  );
}

/** The option and the other one contradict each other, or the other one leaves it nothing to do. */
export function excludes(
  option: string,
  other: string,
  expected: string,
  mend: WayOut = 'leave one of them out',
): OptionRule {
  return rule(option, [other], (given) =>
    given.has(other)
      ? { found: `${option} together with ${other}`, expected, mend: said(mend, given) }
      : null,
  );
}

/** The option has nothing to do where another one has this value. */
export function idleWith(
  option: string,
  other: string,
  value: unknown,
  expected: string,
  mend: WayOut,
): OptionRule {
  return rule(option, [other], (given) =>
    given.has(other) && given.value(other) === value
      ? {
          found: option === other ? `${option} ${value}` : `${option} with ${other} ${value}`,
          expected,
          mend: said(mend, given),
        }
      : null,
  );
}

/** The option may name standard input, which can be read once: not where the scenario or `others` are read from it. */
export function readOnce(option: string, ...others: readonly string[]): OptionRule {
  return rule(option, others, (given) =>
    given.value(option) === '-' &&
    (given.words.includes('-') || others.some((other) => given.value(other) === '-'))
      ? {
          found: `${option} - beside another input from standard input`,
          expected: 'standard input for one of them: it can be read once',
          mend: 'give one of them as a file',
        }
      : null,
  );
}

/** The option names what is written on disk: `-` would be a file or a directory of that name. */
export function onDiskAlone(option: string): OptionRule {
  return idleWith(
    option,
    option,
    '-',
    'a name on disk: standard output has what the command prints',
    'write a name, for example out/new',
  );
}

/** Any other relation. */
export function rule(
  option: string,
  beside: readonly string[],
  against: (given: Given) => Wrong | null,
): OptionRule {
  return { option, beside, against };
}

/** Makes a command refuse what breaks a rule: every problem at once, as BadInput. Its options must stand already. */
export function ruled(command: Command, rules: readonly OptionRule[]): Command {
  const attributes = new Map(command.options.map((option) => [option.long, option.attributeName()]));
  for (const flag of rules.flatMap(({ option, beside }) => [option, ...beside]))
    if (!attributes.has(flag)) throw new RangeError(`${command.name()} has no option ${flag}`);
  const given: Given = {
    has: (flag) => command.getOptionValueSource(attributes.get(flag)!) === 'cli',
    value: (flag) => command.getOptionValue(attributes.get(flag)!),
    get words() {
      return command.args;
    },
  };
  return command.hook('preAction', () => {
    const problems = rules.flatMap(({ option, against }): Problem[] => {
      const wrong = given.has(option) ? against(given) : null;
      return wrong === null ? [] : [{ severity: 'error', file: option, ...wrong }];
    });
    if (problems.length > 0) throw new BadInput(problems);
  });
}

function said(mend: WayOut, given: Given): string {
  return typeof mend === 'string' ? mend : mend(given);
}
