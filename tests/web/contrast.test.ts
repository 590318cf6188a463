/** Words on canvases, which no checker of a page sees: readable on the panels' ground, in both themes (WCAG 2.2, 1.4.3). */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

const css = readFileSync(new URL('../../web/style/colours.css', import.meta.url), 'utf8');

/** Colours of the first rule whose selector is this. */
function coloursOf(selector: string): ReadonlyMap<string, string> {
  const body = css.slice(css.indexOf(`${selector} {`)).split('}')[0]!;
  return new Map([...body.matchAll(/--([\w-]+): (#[0-9a-f]{6})/g)].map(([, name, value]) => [name!, value!]));
}

function luminance(colour: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const part = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}

function contrast(a: string, b: string): number {
  const [low, high] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (high! + 0.05) / (low! + 0.05);
}

it.each([':root', ':root[data-theme="dark"]'])(
  'words stand out 4.5 to 1 and lines 3 to 1 in %s',
  (selector) => {
    const colours = coloursOf(selector);
    for (const ground of ['panel', 'paper']) {
      for (const words of ['ink', 'muted', 'fail', 'pass', 'copper'])
        expect(
          contrast(colours.get(words)!, colours.get(ground)!),
          `${words} on ${ground}`,
        ).toBeGreaterThanOrEqual(4.5);
      for (const line of ['tray', 'battery', 'capacitor'])
        expect(
          contrast(colours.get(line)!, colours.get(ground)!),
          `${line} on ${ground}`,
        ).toBeGreaterThanOrEqual(3);
    }
  },
);

it('both ways to the dark theme give the same colours', () => {
  const asked = css.slice(css.indexOf('prefers-color-scheme: dark'));
  const byset = css.slice(css.indexOf(':root[data-theme="dark"]'));
  const of = (text: string): string[] => (text.split('}')[0]!.match(/--[\w-]+: #[0-9a-f]{6}/g) ?? []).sort();
  expect(of(asked.slice(asked.indexOf(':root')))).toEqual(of(byset));
});
