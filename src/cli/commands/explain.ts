/** `buswake explain`: what a key, an event or a limit means. */

import { Command } from 'commander';
import { numberText } from '../../analysis/words/number-text.ts';
import { BadInput } from '../../base/problem.ts';
import type { LimitRow } from '../../scenario/limit-row.ts';
import { listed } from '../../scenario/text/nearest.ts';
import { type Explained, explained, nearestKeys } from '../../schema/found-keys.ts';
import type { KeyWords } from '../../schema/key-words.ts';
import { shippedLimits } from '../../shipped/shipped-limits.ts';
import { jsonOption } from '../options/shared-options.ts';

const examples = `Examples:
  buswake explain trays.capacitance
  buswake explain latency
  buswake explain ac-ramp-100ms
`;

/** What `explain --json` prints. */
export interface ExplainDocument extends Explained {
  readonly schema_version: number;
}

export function explainCommand(): Command {
  return new Command('explain')
    .argument('<key>', 'a key by its path or its last word, a kind of event, or the id of a limit')
    .addOption(jsonOption())
    .addHelpText('before', examples)
    .action(explain);
}

function explain(word: string, { json }: { readonly json?: boolean }): void {
  const limits = shippedLimits();
  const found = explained(word, limits);
  if (Object.values(found).every((list) => list.length === 0)) throw unknown(word, limits);
  const document: ExplainDocument = { schema_version: 1, ...found };
  process.stdout.write(json === true ? `${JSON.stringify(document, null, 2)}\n` : `${textOf(found)}\n`);
}

function unknown(word: string, limits: readonly LimitRow[]): BadInput {
  const near = nearestKeys(word, limits);
  return new BadInput([
    {
      severity: 'error',
      found: `key ${word}`,
      expected: 'a key of a file, a kind of event or the id of a limit',
      mend:
        near.length === 0
          ? 'list the keys of a scenario: buswake check pulse-train --paths'
          : `did you mean ${listed(near)}?`,
    },
  ]);
}

function textOf({ keys, events, limits }: Explained): string {
  return [
    ...events.map(({ what, means, unit }) => `${what}\n  ${means}\n  happens to  ${unit}`),
    ...keys.map(keyText),
    ...limits.map(limitText),
  ].join('\n\n');
}

function keyText({ path, means, may_be, usually, where_nothing_is_written }: KeyWords): string {
  return [
    path,
    `  ${means}`,
    `  may be      ${may_be}`,
    ...(usually === null ? [] : [`  usually     ${usually}`]),
    `  unwritten   ${where_nothing_is_written ?? 'it must be written'}`,
  ].join('\n');
}

function limitText({ id, title, unit, normal, carry, degraded, source }: LimitRow): string {
  const number = (value: number | null): string => (value === null ? 'none' : numberText(value, unit));
  return [
    `limits.${id}`,
    `  ${title}`,
    `  normal ${number(normal)}, carry ${number(carry)}, degraded ${number(degraded)}`,
    `  ${source}`,
  ].join('\n');
}
