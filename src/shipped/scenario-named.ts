/** A scenario by path, or by the name of one that comes with the project. */
import { existsSync, readdirSync } from 'node:fs';
import { join, relative } from 'node:path';
import { BadInput } from '../base/problem.ts';
import { liesThere } from '../disk/lies-there.ts';
import { home } from '../home.ts';
import { listed, nearestWords } from '../scenario/text/nearest.ts';

const shipped = join(home, 'scenarios');

/** Names of the scenarios that come with the project. */
export function shippedScenarios(): string[] {
  return readdirSync(shipped)
    .filter((file) => file.endsWith('.yaml'))
    .map((file) => file.replace(/\.yaml$/, ''))
    .sort();
}

/** Path of the scenario file: `pulse-train` is scenarios/pulse-train.yaml, a path or a name that lies here is itself, `-` is stdin. */
export function scenarioFile(name: string): string {
  if (name === '-' || /[/\\]|\.ya?ml$/.test(name)) return name;
  if (existsSync(`${shipped}/${name}.yaml`)) return relative(process.cwd(), `${shipped}/${name}.yaml`);
  // What it is, and why it cannot be read, is told by who reads it.
  if (name !== '' && liesThere(name)) return name;
  const names = shippedScenarios();
  const near = nearestWords(name, names);
  throw new BadInput([
    {
      severity: 'error',
      found: `scenario ${name}`,
      expected: `a path to a file, or one of ${listed(names)}`,
      mend: near.length === 0 ? 'name a file or one of these' : `did you mean ${listed(near)}?`,
    },
  ]);
}
