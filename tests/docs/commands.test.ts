/** Every command that a page shows would start, and every output that it shows names the command that prints it. */
import { describe, expect, it } from 'vitest';
import { missing, showing, shownOn } from '../../scripts/shown-outputs.ts';
import { DiskSource } from '../../src/bundle/disk-source.ts';
import { estimateText } from '../../src/cli/terminal/study/estimate-text.ts';
import { readTextFile } from '../../src/disk/read-file.ts';
import { readScenario } from '../../src/scenario/read.ts';
import { studyNamed } from '../../src/shipped/study-named.ts';
import { Shelf } from '../../src/studies/bench/shelf.ts';
import { estimate } from '../../src/studies/estimate/estimate.ts';
import { wrongWith } from './calls.ts';
import { calls, pages, textOf, words } from './read-pages.ts';

describe('commands', () => {
  const shown = pages.flatMap((page) =>
    calls(textOf(page)).map((call) => [page, call.join(' '), call] as const),
  );

  it('are found in the pages', () => {
    expect(shown.length).toBeGreaterThan(40);
    expect(calls('```sh\nbuswake run a --set b="2 F"  # c\n```\nand `buswake size trays`')).toEqual([
      ['run', 'a', '--set', 'b=2 F'],
      ['size', 'trays'],
    ]);
  });

  it.each(shown)('%s: %s would start', async (_page, _line, call) => {
    expect(await wrongWith(call)).toBeNull();
  });

  it.each([
    ['run pulse-trane', 'no scenario or study pulse-trane'],
    ['run pulse-train --sett a=b', 'option --sett'],
    ['run pulse-train --edges round', 'round'],
    ['compare out/a', '1 arguments for 2'],
    ['rnu pulse-train', 'command rnu'],
  ])('that would not start are seen: %s', async (line, why) => {
    expect(await wrongWith(line.split(' '))).toContain(why);
  });

  it('paths that calls name reach something', () => {
    const paths = new Set(readScenario('scenarios/pulse-train.yaml', { files: readTextFile }).paths);
    const options = ['--set', '--x', '--y', '--adjust', '--vary'];
    const named = shown.flatMap(([, , call]) => call.filter((_, k) => options.includes(call[k - 1] ?? '')));
    expect(named.length).toBeGreaterThan(3);
    expect(named.filter((text) => !paths.has(text.split('=')[0]!.trim()))).toEqual([]);
  });
});

describe('outputs', () => {
  const shown = showing.flatMap((page) => shownOn(textOf(page)).map((block) => ({ page, ...block })));

  it('name the command that prints them, and it would start', async () => {
    for (const { page, command } of shown) {
      expect(command, page).not.toBeNull();
      const called = /^npm run -s buswake -- (.*)/.exec(command!);
      if (called === null) expect(command).toBe('npm run -s demo');
      else expect(await wrongWith(words(called[1]!))).toBeNull();
    }
    expect(shown.length).toBeGreaterThan(8);
  });

  it('are compared line by line, in order', () => {
    expect(missing(['a b', '...', 'c … e'], 'x a b\nc d e')).toEqual([]);
    expect(missing(['c … e', 'a b'], 'x a b\nc d e')).toEqual(['a b']);
    expect(missing(['a c'], 'a b c')).toEqual(['a c']);
  });

  it('of the worked sizing are what the hand rules print', () => {
    const shelf = new Shelf(new DiskSource());
    const study = studyNamed('trays', 'size', [], (path) => shelf.text(path));
    const situations = study.cases.map(({ name, scenario, changes }) => ({
      name,
      read: shelf.read({ scenario: scenario ?? study.scenario, changes: [...study.changes, ...changes] }),
    }));
    const printed = estimateText(estimate(situations)!).join('\n');
    const { lines } = shown.find((block) => block.lines[0]!.startsWith('   3  Cycle energy'))!;
    expect(missing(lines, printed)).toEqual([]);
    expect(lines.length).toBeGreaterThan(15);
  });
});
