/**
 * What is heard of the laws during a run: their gains, and rows of what they were told, remembered and commanded. Gains that
 * change in a run would be no gains: they are reported.
 */
import type { LawName, LawRun } from '../firmware/law-run.ts';
import { hexFloat } from './c-number.ts';
import type { LawInC } from './law-in-c.ts';
import { type Leaf, leaf, leavesOf, namesOf, valuesOf } from './leaves.ts';
import { laws } from './made/laws.ts';

/** One group of numbers that a law takes or gives under one name. */
export interface Part {
  /** Name of the parameter, and its structure; null for a column by itself. */
  readonly name: string;
  readonly structure: string | null;
  readonly leaves: readonly Leaf[];
}

/** A law as one task runs it. */
export class Heard {
  /** What it is called in C and among the files. */
  readonly id: string;
  readonly law: LawName;
  readonly inC: LawInC;
  /** Sample times and units that the task states itself. */
  readonly timing: NonNullable<LawRun['timing']> | null;
  readonly gains: readonly Part[];
  readonly memory: Part;
  readonly input: Part;
  readonly command: Part;
  /** Runs so far. */
  rows = 0;
  /** The first gain that changed, and when. */
  changed: { readonly name: string; readonly tick: number } | null = null;
  private readonly firstGains: readonly number[];
  private readonly told: (line: string) => void;

  /** Heard for the first time, before the run. `told`: takes a line of the vectors. */
  constructor(law: LawName, run: LawRun, told: (line: string) => void) {
    this.id = idOf(law, run);
    this.law = law;
    this.inC = laws[law];
    this.timing = run.timing ?? null;
    this.told = told;
    this.gains = Object.keys(run.law).map((name) => this.part(name, run.law[name]!));
    this.memory = this.part('memory', run.memory);
    this.input = this.part('input', run.input);
    const [name] = this.inC.parameters.at(-1)!;
    this.command = this.part(name, run.command);
    this.firstGains = this.gainValues();
    this.told(`# ${this.id}: samples in, commands out, of ${this.inC.runs}() in ${this.inC.file}.c`);
    this.told('# The first row is what memory and commands hold before; then a row for each run.');
    this.told(`# start ${words(this.memory, namesOf)} ${words(this.command, namesOf)}`);
    const { input, memory, command } = this;
    this.told(`# tick ${[input, memory, command].map((part) => words(part, namesOf)).join(' ')}`);
    this.told(`start ${words(memory, tokens)} ${words(command, tokens)}`);
  }

  /** After a run at `tick`: what it was told, and what it remembers and commands now. */
  take(tick: number): void {
    const { input, memory, command, firstGains } = this;
    this.rows++;
    this.told(`${tick} ${words(input, tokens)} ${words(memory, tokens)} ${words(command, tokens)}`);
    if (this.changed !== null) return;
    const at = this.gainValues().findIndex((value, k) => value !== firstGains[k]);
    if (at < 0) return;
    const names = this.gains.flatMap((part) =>
      part.leaves.flatMap(namesOf).map((name) => `${part.name}.${name}`),
    );
    this.changed = { name: names[at]!, tick };
  }

  private gainValues(): number[] {
    return this.gains.flatMap(({ leaves }) => leaves.flatMap(valuesOf));
  }

  private part(name: string, object: object): Part {
    const structure = this.inC.parameters.find(([parameter]) => parameter === name)![1];
    if (structure in this.inC.structures)
      return { name, structure, leaves: leavesOf(this.inC, structure, object) };
    const column = object as Readonly<Record<string, unknown>>;
    return { name, structure: null, leaves: [leaf(column, name, structure, [name])] };
  }
}

/** The law's name; where several tasks run one law, the task's. */
export function idOf(law: LawName, { task }: LawRun): string {
  return law === 'share' || law === 'voltage' ? task.replaceAll(/[^A-Za-z0-9]/g, '_') : law;
}

const words = (part: Part, of: (leaf: Leaf) => readonly string[]): string =>
  part.leaves.flatMap(of).join(' ');

/** Flags and whole numbers as they are, all others exactly. */
function tokens(of: Leaf): string[] {
  const isFloat = of.kind === 'number' || of.kind === 'Float64Array';
  return valuesOf(of).map((value) => (isFloat ? hexFloat(value) : String(value)));
}
