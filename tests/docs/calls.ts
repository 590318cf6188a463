/** Whether a call of the command line that a page shows would start. */
import { existsSync } from 'node:fs';
import type { Command } from 'commander';

/** The command of a call, as the command line makes it. */
async function commandOf(name: string): Promise<Command> {
  const module = (await import(`../../src/cli/commands/${name}.ts`)) as Record<string, () => Command>;
  return module[`${name}Command`]!()
    .exitOverride()
    .configureOutput({ writeErr: () => {} });
}

/** What is wrong with a call of the command line; null where it would start. */
export async function wrongWith([name = '', ...rest]: readonly string[]): Promise<string | null> {
  if (name.startsWith('--')) return ['--help', '--version'].includes(name) ? null : `option ${name}`;
  if (!existsSync(`src/cli/commands/${name}.ts`)) return `command ${name}`;
  const command = await commandOf(name);
  try {
    const { operands, unknown } = command.parseOptions(rest);
    if (unknown.length > 0) return `option ${unknown[0]}`;
    const wanted = command.registeredArguments.length;
    if (operands.length !== wanted) return `${operands.length} arguments for ${wanted}`;
    const [operand = ''] = operands;
    const isName = /^[a-z][a-z-]*$/.test(operand);
    const files = [`scenarios/${operand}.yaml`, `scenarios/studies/${operand}.yaml`];
    // What is drafted is given its name.
    return isName && name !== 'new' && !files.some((file) => existsSync(file))
      ? `no scenario or study ${operand}`
      : null;
  } catch (error) {
    return (error as Error).message;
  }
}
