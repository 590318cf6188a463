import { describe, expect, test } from 'vitest';
import { refuseIdle } from '../../../src/cli/options/idle-options.ts';

describe('refuseIdle()', () => {
  test('refuses every option that says how to read a file that is not given, with the way out', () => {
    expect(() =>
      refuseIdle({ power: ['2'], acceptAc: true, samples: 'means', sensor: new Map([['a', 'shunt']]) }),
    ).toThrowErrorMatchingInlineSnapshot(`
      [BadInput: --power
        found     --power without --load
        expected  the file that it says how to read
        mend      add --load FILE; of a recording that the scenario names: --set load.reading.power=VALUE
      --samples
        found     --samples without --load
        expected  the file that it says how to read
        mend      add --load FILE; of a recording that the scenario names: --set load.reading.samples=VALUE
      --accept-ac
        found     --accept-ac without --load
        expected  the file that it says how to read
        mend      add --load FILE; of a recording that the scenario names: --set load.reading.accept_ac=VALUE
      --sensor
        found     --sensor without --measured
        expected  the file that it says how to read
        mend      add --measured FILE
      4 problems. Nothing was run.]
    `);
  });

  test('points to the likes of a measurement where one is given', () => {
    expect(() => refuseIdle({ sentinel: [-1], measured: 'bench.csv' })).toThrow(
      /write --measured-sentinel where the measurement is meant, or add --load FILE/,
    );
  });

  test('takes what has its file, and what needs none', () => {
    refuseIdle({});
    refuseIdle({ load: 'load.csv', copies: 3, sentinel: [-1] });
    refuseIdle({ measured: 'bench.csv', measuredAt: 0, measuredSentinel: [-1] });
  });
});
