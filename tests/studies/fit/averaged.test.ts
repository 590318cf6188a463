/** Rows joined to means, read as instants: the sample of an edge stands alone, and is a reading all the same. */
import { expect, test } from 'vitest';
import { explanationWords } from '../../../src/studies/fit/explanation-words.ts';
import { faultOnStep } from './bench.ts';

test('a file made smaller by means is told as that, and no row of its edge is called none', async () => {
  const { report } = await faultOnStep('means of five rows');
  const [first] = report.would_explain;
  expect(first).toMatchObject({ kind: 'averaged', over_s: 0.005 });
  expect(report.would_explain.filter(({ kind }) => kind === 'readings')).toEqual([]);
  expect(explanationWords(first!).mend).toContain('--sensor "CHANNEL=KIND, averaging 5 ms"');
});
