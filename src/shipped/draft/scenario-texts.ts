/** Two loads to begin with: the pulse train and the start from idle that the reference cabinet is judged by. */
import { formatQuantity } from '../../base/quantity.ts';
import { type Draft, idle_ratio, totalOf } from './answers.ts';

/** Low level of the pulse train over its high one, as in the reference (assumed). */
const low_ratio = 100 / 240;

export function scenarioTexts(name: string, draft: Draft, schemas: string): Readonly<Record<string, string>> {
  const rated_W = totalOf(draft.sleds);
  const power = (x: number): string => formatQuantity(x, 'power', 4);
  const head = (title: string, about: string, ahead: readonly string[] = []): readonly string[] => [
    `# yaml-language-server: $schema=${schemas}/scenario.json`,
    ...ahead,
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
      ...head(`Start from idle on ${name}`, 'All sleds go from idle to full power together.', [
        '# Passes with conditions at best: one start is too short and too rare for flicker (ten minutes, two hours), for the',
        '# current that a feeder carries for good (ten minutes) and for heat (up to half an hour). pulses.yaml, which repeats,',
        '# is judged by all of these.',
      ]),
      '# 10 s until what the start stirs up is over, and 20 s behind that in which slow ripple is judged.',
      'duration: 32 s',
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
  };
}
