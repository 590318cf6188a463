/** Options that would be passed over in silence are refused before anything is read, each with the way out. */
import type { Command } from 'commander';
import { describe, expect, test } from 'vitest';
import { checkCommand } from '../../../../src/cli/commands/check.ts';
import { exportCommand } from '../../../../src/cli/commands/export.ts';
import { fitCommand } from '../../../../src/cli/commands/fit.ts';
import { gainsCommand } from '../../../../src/cli/commands/gains.ts';
import { responseCommand } from '../../../../src/cli/commands/response.ts';
import { runCommand } from '../../../../src/cli/commands/run.ts';
import { sizeCommand } from '../../../../src/cli/commands/size.ts';
import { spreadCommand } from '../../../../src/cli/commands/spread.ts';
import { traceCommand } from '../../../../src/cli/commands/trace.ts';
import { viewCommand } from '../../../../src/cli/commands/view.ts';

const made: Readonly<Record<string, () => Command>> = {
  run: runCommand,
  check: checkCommand,
  trace: traceCommand,
  view: viewCommand,
  export: exportCommand,
  fit: fitCommand,
  gains: gainsCommand,
  response: responseCommand,
  size: sizeCommand,
  spread: spreadCommand,
};

/** Carries out the rules of a command line, and nothing behind them. */
async function asked(line: string): Promise<void> {
  const [name = '', ...words] = line.split(' ');
  const command = made[name]!()
    .exitOverride()
    .configureOutput({ writeErr: () => undefined })
    .action(() => undefined);
  await command.parseAsync(words, { from: 'user' });
}

const recorded = 'run a --load f.csv';

describe('refused, with the way out:', () => {
  test.each([
    // A file that is not given.
    ['run a --power 2', /--power without --load.*add --load FILE; .*--set load\.reading\.power=VALUE/],
    ['run a --accept-ac --side ac', /--accept-ac without --load.*load\.reading\.accept_ac=VALUE/],
    ['run a --edge 2ms', /--edge without --load.*--set load\.edge=VALUE/],
    ['run a --loop', /--loop without --load/],
    ['run a --sensor a=shunt', /--sensor without --measured.*add --measured FILE/],
    ['run a --measured b --sentinel -1', /write --measured-sentinel where the measurement is meant/],
    ['fit a --measured-near 1s', /--measured-near without --measured/],
    ['response a --curve c', /--curve without --measured.*add --measured FILE/],
    // Two ways of reading.
    [`${recorded} --power 2 --current 3`, /--power together with --current.*leave one of them out/],
    [`${recorded} --power 2 --voltage 3`, /--voltage together with --power.*name the current by --current/],
    ['trace f --averaging 1s --samples instants', /--averaging with --samples instants/],
    [`${recorded} --accept-ac --side dc`, /--accept-ac with --side dc.*write --side ac/],
    [`${recorded} --accept-ac`, /--accept-ac without --side ac.*add --side ac/],
    [`${recorded} --copies 1 --coincidence worst`, /--coincidence with --copies 1/],
    ['run a --measured b --measured-at 1s --measured-near 1s', /--measured-near together with --measured-at/],
    ['run - --load -', /--load - beside another input from standard input.*as a file/],
    ['run a --load - --measured -', /--load - beside another/],
    ['fit - --measured -', /--measured - beside another/],
    // Two ways of playing.
    [`${recorded} --edges smooth --edge 2ms`, /--edge with --edges smooth.*give --edges sharp/],
    [`${recorded} --edge 2ms --set load.edge=3ms`, /--edge together with --set load\.edge/],
    [`${recorded} --copies 2 --set load.peak=3kW`, /--copies together with --set load\.peak.*one scale/],
    ['run a --draws power --set sleds.constant_current=50%', /--draws together with --set sleds\.constant/],
    ['run a --draws mixed --set sleds.sled-1.constant_current=1', /--set sleds\.sled-1\.constant_current/],
    [
      `${recorded} --set load.reading.unit=kW`,
      /--set load\.reading\.unit together with --load.*write --unit/,
    ],
    // What is printed.
    ['run a -q -v', /--verbose together with --quiet/],
    ['run a -v --json', /--verbose together with --json/],
    ['run a --energy --json', /--energy together with --json.*the document holds it/],
    ['run a --energy -q', /--energy together with --quiet/],
    ['check a -q --paths', /--quiet together with --paths/],
    // What is written.
    ['run a --force', /--force without --out or --csv or --parquet.*leave it out/],
    ['run a --csv x --parquet ./x', /--csv and --parquet of the same file, \.\/x.*another name/],
    ['run a --out o --csv o/x.csv', /--csv in the directory of --out/],
    ['run a --channels b', /^--channels\n.*--channels without a file.*add --csv FILE/],
    ['run a --rate 1kHz', /^--rate\n.*--rate without a file/],
    ['run a --csv f --filter mean', /^--filter\n.*--filter without a rate/],
    ['export o --out t --filter mean', /^--filter\n.*--filter without a rate/],
    ['export o --out t --rate 1kHz --every-step', /--rate together with --every-step/],
    ['run a --csv -', /^--csv\n.*found {5}--csv -\n.*standard output.*out\/new/],
    ['run a --out -', /^--out\n.*found {5}--out -\n/],
    ['export o --out -', /--out -/],
    ['trace f --out -', /--out -/],
    ['view o --one-file -', /--one-file -/],
    ['size a --out -', /--out -/],
    ['trace f --force', /--force without --out/],
    ['trace f --anonymise', /--anonymise without --out/],
    ['trace f --anonymise --scale-to 3kW', /--anonymise without --out.*add --out FILE/],
    ['view o --force', /--force without --out/],
    // Studies.
    ['size a --resume', /--resume without --out/],
    ['size a --force', /--force without --out/],
    ['size a --out o --force --resume', /--force together with --resume/],
    ['size a --out o --part 1/2 --merge x', /--part together with --merge/],
    ['size a --out o --resume --merge x', /--resume together with --merge/],
    ['size a --out o --part 1/2 --json', /--json together with --part/],
    ['gains a --share-cases --no-confirm', /--no-confirm together with --share-cases/],
    ['gains a --share-cases --x b=1', /--x together with --share-cases/],
    ['spread a --sample 3 --out o', /--out together with --sample/],
  ])('%s', async (line, why) => {
    await expect(asked(line)).rejects.toThrow(new RegExp(why, 's'));
  });

  test('all at once, each by its own option', async () => {
    await expect(asked('run a --fresh --csv f --filter mean -q -v')).rejects.toThrow(
      /^--fresh\n.*^--filter\n.*^--verbose\n.*3 problems/ms,
    );
  });
});

test('a limit is waived once', async () => {
  await expect(asked('run a --waive trim=b --waive trim=c')).rejects.toThrow(
    /It stands twice for trim: leave one/,
  );
});

test.each([
  'run a -q --json --no-color',
  'run a --draws current --set sleds.sled-1.esr=1mΩ',
  `${recorded} --copies 2 --coincidence spread --edges both --edge 2ms --side ac --accept-ac`,
  'run a --measured b --measured-near 1s --sensor a=shunt --measured-sentinel -1',
  'run a --csv out/x.csv --out out/x --force --rate 1kHz --filter mean --channels a',
  'trace f --out g --force --anonymise --seed 2 --current 1 --voltage 2',
  'export o --out t --rate 1kHz --filter mean --force',
  'check a -q --json',
  'size a --out o --part 1/2 --quiet',
  'gains a --share-cases --at 3kW --json',
  'spread a --sample 3 --seed 2 --samples 9',
])('taken: %s', async (line) => {
  await asked(line);
});
