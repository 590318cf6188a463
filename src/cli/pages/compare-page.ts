/** Makes the page of two kept runs: one HTML file with what differs and both pictures inside, which opens offline. */
import { cautionsAt } from '../../analysis/words/cautions.ts';
import type { Bundle } from '../../bundle/format.ts';
import { looseJson } from '../../bundle/json.ts';
import type { Comparison } from '../../studies/compare/compare.ts';
import { packSide } from '../../studies/compare/side.ts';
import { summed } from './checked.ts';
import { pagePart } from './page-part.ts';
import { fillShell } from './shell.ts';

export function makeComparePage(comparison: Comparison, before: Bundle, after: Bundle): string {
  const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
  const sides = [
    ['before', packSide(before)],
    ['after', packSide(after)],
  ] as const;
  return fillShell({
    main: 'compare/main.html',
    maker: 'compare',
    traces: 'ruler',
    cautions: cautionsAt(before.scenario.nominal_V, after.scenario.nominal_V),
    checked: summed('both runs'),
    style: pagePart('compare/compare.css'),
    script: pagePart('compare/main.js'),
    carried: [
      ['comparison.json', bytes(looseJson(comparison))],
      ...sides.flatMap(([name, side]): [string, Uint8Array][] => [
        [`${name}.json`, bytes(side.text)],
        [`${name}.bin`, side.bytes],
      ]),
    ],
  });
}
