/**
 * Functions of the kernel linked to one memory: folded over its addresses at the build, filled with them here. Linked modules
 * of the last memories are kept, for runs of a study are mostly of cabinets that are laid out alike.
 */
import type { WasmApi } from '../../base/wasm.ts';
import { kernelTemplates } from './made/templates.ts';
import { type Numbers, Template } from './template.ts';

interface Linked {
  readonly numbers: Numbers;
  readonly module: object;
}

/** Modules kept of each function. */
const mostKept = 4;

const templates = new Map<string, Template>();
const kept = new Map<string, Linked[]>();

/** Functions that can be linked: names, and of each parameter the structure whose address it is. */
export const linkable = Object.entries(kernelTemplates).map(([name, { handed }]) => ({ name, handed }));

/** Read when it is first asked for. */
export function templateOf(name: string): Template {
  const template = templates.get(name) ?? new Template(kernelTemplates[name]!);
  templates.set(name, template);
  return template;
}

/** Whether nothing has been linked yet: then no other code is warm either, and linking is the quicker way from the start. */
export const isNothingLinked = (): boolean => kept.size === 0;

const isAlike = (a: Int32Array | Uint8Array, b: Int32Array | Uint8Array): boolean =>
  a.length === b.length && a.every((value, k) => value === b[k]);

/** The module of a function for a memory; null where none is kept and none `mayMake`, or it cannot be filled. */
export function linkedModule(api: WasmApi, name: string, numbers: Numbers, mayMake: boolean): object | null {
  const all = kept.get(name) ?? [];
  const known = all.find(
    (one) => isAlike(one.numbers.number, numbers.number) && isAlike(one.numbers.moves, numbers.moves),
  );
  if (known !== undefined || !mayMake) return known?.module ?? null;
  const bytes = templateOf(name).filled(numbers);
  if (bytes === null) return null;
  const module = new api.Module(bytes);
  kept.set(name, [{ numbers, module }, ...all].slice(0, mostKept));
  return module;
}
