/** `buswake explain`: what a key, an event, a limit, what it compares or a criterion means. */

import { Command } from 'commander';
import { numberText } from '../../analysis/words/number-text.ts';
import { BadInput } from '../../base/problem.ts';
import type { LimitRow } from '../../scenario/limit-row.ts';
import { listed } from '../../scenario/text/nearest.ts';
import { type EventWords, type Explained, explained, nearestKeys } from '../../schema/found-keys.ts';
import type { KeyWords } from '../../schema/key-words.ts';
import type { QuantityWords } from '../../schema/quantity-words.ts';
import { shippedLimits } from '../../shipped/shipped-limits.ts';
import type { CriterionWords } from '../../studies/gains/accept.ts';
import { quoted } from '../../studies/trials/replay.ts';
import { jsonOption } from '../options/shared-options.ts';

const examples = `Examples:
  buswake explain trays.capacitance
  buswake explain latency
  buswake explain ac-ramp-100ms
  buswake explain limits
`;

/** What `explain --json` prints. */
export interface ExplainDocument extends Explained {
  readonly schema_version: number;
}

export function explainCommand(): Command {
  return new Command('explain')
    .argument(
      '<key>',
      'a key by its path or its last word, a kind of event, the id of a limit, a metric of a specification, or a criterion of gains; limits names all metrics',
    )
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
      expected:
        'a key of a file, a kind of event, the id of a limit, a metric of a specification or a criterion of gains',
      mend:
        near.length === 0
          ? 'list the keys of a scenario: buswake check pulse-train --paths'
          : `did you mean ${listed(near)}?`,
    },
  ]);
}

function textOf({ keys, events, quantities, criteria, limits }: Explained): string {
  return [
    ...events.map(eventText),
    ...keys.map(keyText),
    ...(quantities.length > 1 ? [quantitiesText(quantities)] : quantities.map(quantityText)),
    ...criteria.map(criterionText),
    ...limits.map(limitText),
  ].join('\n\n');
}

function eventText({ what, means, unit, written }: EventWords): string {
  return [
    what,
    `  ${means}`,
    `  happens to  ${unit}`,
    '  written     events:',
    ...written.items.map((item) => `                ${item}`),
    `  or          ${['buswake run pulse-train', ...written.changes.map((change) => `--set ${quoted(`events.add=${change}`)}`)].join(' ')}`,
  ].join('\n');
}

/** All of them, a line each, with one limit that compares it. */
function quantitiesText(quantities: readonly QuantityWords[]): string {
  const width = Math.max(...quantities.map(({ name }) => name.length));
  return [
    'metrics that a specification may name, each with a limit that compares it:',
    ...quantities.map(({ name, compared_as }) => `  ${name.padEnd(width)}  ${compared_as[0] ?? ''}`),
  ].join('\n');
}

function quantityText({ name, unit, bound, stay, band }: QuantityWords): string {
  return [
    name,
    '  a metric of a specification; the shipped limits that compare it are below',
    `  bound       ${bound}`,
    `  unit        ${unit}`,
    `  stay        ${stay}`,
    `  band        ${band}`,
  ].join('\n');
}

function criterionText({ name, means, usual, source }: CriterionWords): string {
  return [
    name,
    `  a criterion of gains: ${means}`,
    `  usually     ${usual} (${source})`,
    `  changed by  buswake gains SCENARIO --accept ${name}=VALUE`,
  ].join('\n');
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
