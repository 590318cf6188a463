/** The text of a model that is like a shipped one, of another size or for another bus voltage. */
import { type Dimension, formatQuantity } from '../../base/quantity.ts';
import { extremes } from '../../scenario/part-states.ts';
import { readDocument } from '../../scenario/text/document.ts';
import { type Model, type ModelShape, readModel } from '../../scenario/text/model.ts';
import type { ModelValue } from '../../scenario/text/sourced.ts';
import { factorOf, type Laws } from './by-size.ts';

/** A number that a drafted model states: as a value with its unit, and why. */
export interface OwnNumber {
  readonly value: string;
  readonly why: string;
}

/** Significant digits of what is drafted: finer than anything here is known. */
const digits = 5;

/** A shipped file's text by its name. */
export type Shipped = (name: string) => string;

/** The model that a shipped one is like; null where it stands by itself. */
export function likeOf(text: string): string | null {
  return /^like: (\S+)$/m.exec(text)?.[1] ?? null;
}

/** A shipped model, with what it has of the one that it is like. Throws RangeError where that is none: it is the project's own. */
export function shippedModel(file: string, shipped: Shipped, shape: ModelShape): Model {
  const text = shipped(file);
  const root = readDocument(file, text, []);
  if (root === null) throw new RangeError(`${file} cannot be read`);
  const base = likeOf(text);
  return readModel(root, shape, base === null ? null : shippedModel(base, shipped, shape), []);
}

/**
 * Lines of what differs by size and by voltage, each with the ranges and states of the model it comes from. `laws`: by path;
 * `by`: size and voltage over those of the model; `of`: what it is called.
 */
export function scaledLines(
  model: Model,
  dimensions: (path: string) => Dimension,
  laws: Laws,
  by: { readonly size: number; readonly volts: number },
  of: string,
): Map<string, string> {
  const lines = new Map<string, string>();
  for (const [path, law] of Object.entries(laws)) {
    const value = model.values.get(path);
    const factor = factorOf(law, by);
    if (value === undefined || factor === 1) continue;
    lines.set(path, scaledText(value, dimensions(path), factor, of));
  }
  return lines;
}

function scaledText({ value, note }: ModelValue, dimension: Dimension, factor: number, of: string): string {
  const text = (x: number): string => formatQuantity(x * factor, dimension, digits);
  const parts = ['low', 'high', ...extremes] as const;
  const corners = parts.flatMap((key) => (note[key] === null ? [] : [`${key}: ${text(note[key])}`]));
  if (note.distribution !== null) corners.push(`distribution: ${note.distribution}`);
  if (note.common) corners.push('common: yes');
  const why = `${Number(factor.toPrecision(digits))} times that of ${of}`;
  return `{ ${[`value: ${text(Number(value))}`, ...corners, 'source: derived', `why: "${why}"`].join(', ')} }`;
}

export function ownText({ value, why }: OwnNumber): string {
  return `{ value: ${value}, source: derived, why: "${why}" }`;
}

/** The whole file. `held`: lines of its numbers, below `parameters:`, or below each task. */
export function likeText(
  {
    kind,
    title,
    like,
    schema,
  }: { readonly kind: string; readonly title: string; readonly like: string; readonly schema: string },
  held: readonly string[],
): string {
  return [
    `# yaml-language-server: $schema=${schema}/${kind}.json`,
    `# What is not stated here is as in ${like}. Replace what your data sheet says otherwise, with its source.`,
    `model: ${kind}`,
    `title: ${title}`,
    `like: ${like}`,
    ...held,
    '',
  ].join('\n');
}
