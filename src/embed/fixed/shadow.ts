/** A law followed beside its task: the same gains and inputs, a memory and commands of its own whose numbers are of any type. */
import type { LawName, LawRun } from '../../firmware/law-run.ts';
import type { LawInC } from '../law-in-c.ts';
import { type Leaf, leaf, leavesOf } from '../leaves.ts';
import { followed } from '../made/followed.ts';
import { laws } from '../made/laws.ts';
import type { Steps } from './steps.ts';

type Part = Record<string, unknown>;

/** Numbers with a fraction, one or a column. */
export const isNumbers = ({ kind }: Pick<Leaf, 'kind'>): boolean =>
  kind === 'number' || kind === 'Float64Array';

export class Shadow<T> {
  /** Places of memory and commands, over what stands in this shadow: numbers of type T, and flags. */
  readonly memory: readonly Leaf[];
  readonly command: readonly Leaf[];
  private readonly parts: { readonly memory: Part; readonly command: Part };
  private readonly run: LawRun;
  private readonly inC: LawInC;
  private readonly law: LawName;

  /** As the task stands before its first run. `number`: a number of it, by its field. */
  constructor(law: LawName, run: LawRun, number: (x: number, field: string) => T) {
    this.law = law;
    this.inC = laws[law];
    this.run = run;
    const [name] = this.inC.parameters.at(-1)!;
    const memory = this.leaves('memory', run.memory);
    const command = this.leaves(name, run.command);
    this.parts = { memory: copied(memory, number), command: copied(command, number) };
    this.memory = this.leaves('memory', this.parts.memory);
    this.command = this.leaves(name, this.parts.command);
  }

  /** Leaves of the task itself: what it is tuned to, is told, remembers and commands. */
  ofTask(): Leaf[] {
    const { law, input, memory, command } = this.run;
    const [name] = this.inC.parameters.at(-1)!;
    return [
      ...Object.keys(law).flatMap((part) => this.leaves(part, law[part]!)),
      ...this.leaves('input', input),
      ...this.leaves('memory', memory),
      ...this.leaves(name, command),
    ];
  }

  /** One run of the law. */
  follow(steps: Steps<T>): void {
    const taken = this.inC.parameters.map(([name, kind]) => {
      if (name in this.run.law) return this.run.law[name];
      if (name === 'input') return this.run.input;
      if (name === 'memory') return this.parts.memory;
      return kind in this.inC.structures ? this.parts.command : this.parts.command[name];
    });
    followed[this.law](steps, ...taken);
  }

  /** What stands in a place. */
  at({ path, length }: Leaf, k: number, of: 'memory' | 'command'): T {
    const held = this.parts[of][path[0]!];
    return (length === null ? held : (held as T[])[k]) as T;
  }

  put({ path, length }: Leaf, k: number, of: 'memory' | 'command', value: T): void {
    if (length === null) this.parts[of][path[0]!] = value;
    else (this.parts[of][path[0]!] as T[])[k] = value;
  }

  private leaves(parameter: string, object: object): Leaf[] {
    const structure = this.inC.parameters.find(([name]) => name === parameter)![1];
    if (structure in this.inC.structures) return leavesOf(this.inC, structure, object);
    return [leaf(object as Part, parameter, structure, [parameter])];
  }
}

/** Memory and commands hold numbers, flags and columns of them, no structures. */
function copied<T>(leaves: readonly Leaf[], number: (x: number, field: string) => T): Part {
  return Object.fromEntries(
    leaves.map((one) => {
      const { path, length, field, read } = one;
      const value = (k: number): unknown => (isNumbers(one) ? number(read(k), field) : read(k));
      return [path[0]!, length === null ? value(0) : Array.from({ length }, (_, k) => value(k))];
    }),
  );
}
