import { Option } from 'commander';

/** An option that may be given more than once. `otherwise`: what holds where it is not given, for the help. */
export function repeatable(flags: string, means: string, otherwise: string): Option {
  return new Option(flags, `${means}; repeatable`).argParser(collect).default([], otherwise);
}

function collect(word: string, before: readonly string[]): readonly string[] {
  return [...before, word];
}
