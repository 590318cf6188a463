import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { identificationBenches } from '../../../scripts/identification/benches.ts';
import { fitted } from '../../../scripts/identification/fitted.ts';
import { benchWith } from '../../../scripts/identification/simulated.ts';
import { truthsOf } from '../../../scripts/identification/truths.ts';
import { channelsOf } from '../../../src/engine/gauge.ts';
import { MeasuredReader } from '../../../src/measured/read-measured.ts';
import { assemble } from '../../../src/network/network.ts';
import { holds } from './bench.ts';

describe('the shipped measurement of', () => {
  test.each(identificationBenches)(
    '$name gives back within its intervals what it was made with',
    async (bench) => {
      const file = `scenarios/measured/${bench.name}.csv`;
      const reading = {
        time: null,
        dates: null,
        decimal: null,
        sentinel: [],
        map: new Map(),
        sensors: new Map(
          bench.probes.flatMap(({ channel, sensor }) => (sensor === undefined ? [] : [[channel, sensor]])),
        ),
      };
      const reader = new MeasuredReader(file, reading, channelsOf(assemble(benchWith(bench, []).scenario)));
      reader.push(readFileSync(file, 'utf8'));
      const report = await fitted(bench, reader.finish(''), { placeGiven: true, suspected: false });
      expect(report.misfit).toEqual([]);
      for (const { path, value } of truthsOf(bench)) {
        expect([path, holds(report, path, value)]).toEqual([path, true]);
        // It says something: the class of usual instruments leaves about half of the model's range.
        const { interval, range } = report.result[path]!;
        expect(interval![1] - interval![0]).toBeLessThan(0.6 * (range[1] - range[0]));
      }
    },
  );
});
