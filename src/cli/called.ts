/** Commands that are printed must work when they are typed: they begin as the user began. */
import { basename, relative } from 'node:path';

type Environment = Readonly<Record<string, string | undefined>>;

/** How this process was called, up to the name of the command: by npm, by npx, by its file, or as installed. */
export function calledAs(script: string, environment: Environment, folder: string): string {
  if (environment['npm_lifecycle_event'] === 'buswake') return 'npm run -s buswake --';
  const name = basename(script);
  if (name.endsWith('.ts')) return `node --import tsx ${relative(folder, script)}`;
  if (name === 'buswake' && environment['npm_command'] === 'exec') return 'npx buswake';
  return name.endsWith('.mjs') ? `node ${relative(folder, script)}` : 'buswake';
}

/** Writes every `buswake <command>` of a text the way the user calls it. */
export function asCalled(text: string, called: string, commands: readonly string[]): string {
  // A line may have been broken behind its first word.
  const named = new RegExp(`\\bbuswake(?=\\s+(?:${commands.join('|')}|--help)\\b)`, 'g');
  return text.replace(named, called);
}

/** From here on stdout and stderr speak so. Not for --json: a document does not depend on who asked. */
export function speakAsCalled(called: string, commands: readonly string[]): void {
  if (called === 'buswake') return;
  for (const stream of [process.stdout, process.stderr]) {
    const write = stream.write.bind(stream) as (...args: readonly unknown[]) => boolean;
    stream.write = ((chunk: unknown, ...rest: readonly unknown[]) =>
      write(
        typeof chunk === 'string' ? asCalled(chunk, called, commands) : chunk,
        ...rest,
      )) as typeof stream.write;
  }
}
