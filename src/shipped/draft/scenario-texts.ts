/** Two loads and a sizing to begin with: the pulse train and the start from idle that the reference cabinet is judged by. */
import { formatQuantity } from '../../base/quantity.ts';
import { countOf, type Draft, idle_ratio, startPower_W, totalOf } from './answers.ts';
import type { Layout } from './places.ts';

/** Low level of the pulse train over its high one, as in the reference (assumed). */
const low_ratio = 100 / 240;

export function scenarioTexts(
  name: string,
  draft: Draft,
  layout: Layout,
  schemas: string,
): Readonly<Record<string, string>> {
  const rated_W = totalOf(draft.sleds);
  const power = (x: number): string => formatQuantity(x, 'power', 4);
  const head = (title: string, about: string): readonly string[] => [
    `# yaml-language-server: $schema=${schemas}/scenario.json`,
    `title: ${title}`,
    `about: ${about}`,
    'cabinet: cabinet.yaml',
    '',
  ];
  return {
    'pulses.yaml': [
      ...head(
        `Pulse train on ${name}`,
        'Steps of training as pulses, each sled with its share. A load of our own invention; put yours here.',
      ),
      '# Eighteen whole periods: what is left of a period is not judged.',
      'duration: 28.8 s',
      '# In the periodic steady state, found before the run begins.',
      'start: converged-cycle',
      '',
      'load:',
      '  kind: pulse-train',
      `  low: ${power(low_ratio * rated_W)}`,
      `  high: ${power(rated_W)}`,
      '  period: 1.6 s',
      '  duty: 70 %',
      '  edge: 5 ms',
      '',
    ].join('\n'),
    'start.yaml': [
      ...head(`Start from idle on ${name}`, 'All sleds go from idle to full power together.'),
      'duration: 12 s',
      'start: settled',
      '',
      'load:',
      '  kind: step',
      `  before: ${power(idle_ratio * rated_W)}`,
      `  after: ${power(rated_W)}`,
      '  at: 1 s',
      '  edge: 5 ms',
      '',
    ].join('\n'),
    ...(countOf(draft.trays) === 0 ? {} : { 'trays.yaml': sizingText(name, draft, layout, schemas) }),
  };
}

/** About what a start from idle takes in power with a spare tray, and about what is drafted: three fewer to three more. */
function sizingText(name: string, draft: Draft, layout: Layout, schemas: string): string {
  const { trays } = draft;
  const count = countOf(trays);
  const largest_W = Math.max(...trays.map(({ size }) => size));
  const lacking_W = startPower_W(totalOf(draft.sleds)) + largest_W - totalOf(trays);
  const needed = count + Math.ceil(lacking_W / trays[0]!.size);
  const from = Math.max(1, Math.min(count, needed) - 3);
  const to = Math.min(Math.max(count, needed) + 3, layout.fill.trays.length);
  return [
    `# yaml-language-server: $schema=${schemas}/study.json`,
    '# How many trays? Each candidate is run through every situation.',
    'study: size',
    `title: Trays of ${name}`,
    'scenario: pulses.yaml',
    '',
    'vary:',
    `  trays.count: ${from} to ${to}`,
    '',
    'cases:',
    '  pulse train: { scenario: pulses.yaml, changes: [duration = 16 s] }',
    '  idle to full: { scenario: start.yaml }',
    '',
    'corners:',
    '  new: []',
    '  aged: [ageing.trays = end-of-life, ageing.banks = end-of-life]',
    '',
    '# Out from the start: the normal limits hold.',
    'redundancy:',
    '  whole: []',
    `  one tray out: [trays.${layout.fill.trays[0]}.fitted = no]`,
    '',
  ].join('\n');
}
