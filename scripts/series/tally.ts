/** A series tried from its first number on: how many ended how, with a line for each that is wrong, under a watchdog. */
import type { Timed } from './tried.ts';
import { watchdog } from './watchdog.ts';

/** `words`: each ending as the sum of the series says it, in this order. Sets the exit code to 1 where one is wrong. */
export function tally<Ending extends string>(
  of: string,
  count: number,
  words: Readonly<Record<Ending, string>>,
  attempt: (number: number) => Timed<Ending>,
): void {
  const counts = new Map<Ending | 'wrong', number>();
  const beat = watchdog();
  let slowest_ms = 0;
  for (let number = 0; number < count; number++) {
    beat(number);
    const { ending, why, spent_ms } = attempt(number);
    slowest_ms = Math.max(slowest_ms, spent_ms);
    counts.set(ending, (counts.get(ending) ?? 0) + 1);
    if (ending === 'wrong') process.stdout.write(`${number}: ${why}\n`);
  }
  const wrong = counts.get('wrong') ?? 0;
  const told = (Object.keys(words) as Ending[]).map(
    (ending) => `${counts.get(ending) ?? 0} ${words[ending]}`,
  );
  process.stdout.write(
    `${count} ${of}: ${told.join(', ')}, ${wrong} wrong; the slowest took ${Math.round(slowest_ms)} ms\n`,
  );
  if (wrong > 0) process.exitCode = 1;
}
