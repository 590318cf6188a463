/** The bars in their places, as wide as their RMS current, each with its figures beside it. */
import { copperWords, type JudgedBar, riseText, type Warmth } from '../../src/analysis/words/copper-words.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';
import { svg } from '../dom.ts';
import { wholePercent, withUnit } from '../numbers.ts';
import { type BarPlace, type Layout, layOut, type Point } from './layout.ts';

/** Width of the bar of the largest current, and of one that carries next to nothing [px]. */
const widest_px = 12;
const least_px = 1.5;

/** Room for names and figures outside the sections [px]. */
const margin = 52;

export function drawWarmth(scenario: Scenario, bars: readonly JudgedBar[], width: number): SVGSVGElement {
  const layout = layOut(scenario, width);
  const most_A = Math.max(1, ...bars.map(({ rms_A }) => rms_A));
  const byName = new Map(bars.map((bar) => [bar.bar, bar]));
  const bottom = layout.height - layout.rackTop;
  const height = bottom - layout.rackTop + 2 * margin;
  const root = svg('svg', {
    ...{ width, height, class: 'warmth', role: 'img', 'aria-label': 'bars with current and rise' },
    viewBox: `0 ${layout.rackTop - margin} ${width} ${height}`,
  });
  const told: SVGElement[] = [];
  for (const place of layout.bars) {
    const bar = byName.get(place.id);
    const stroke = bar === undefined ? least_px : Math.max(least_px, (widest_px * bar.rms_A) / most_A);
    const d = place.path.map(({ x, y }, k) => `${k === 0 ? 'M' : 'L'}${x},${y}`).join('');
    const kind = bar === undefined || !place.closed ? 'bed open' : classOf(bar.warmth);
    const said = svg('title', {}, bar === undefined ? `${place.id}: no current` : copperWords(bar));
    root.append(svg('path', { d, class: kind, 'stroke-width': stroke.toFixed(2) }, said));
    if (bar !== undefined) told.push(...figuresOf(place, bar, layout));
  }
  for (const { id, at, side } of layout.units) {
    root.append(svg('circle', { cx: at.x, cy: at.y, r: 2.5, class: 'joint' }));
    told.push(svg('text', { x: at.x, y: at.y + (side < 0 ? -11 : 19), class: 'name' }, id));
  }
  for (const { id, at } of layout.sleds) {
    root.append(svg('circle', { cx: at.x, cy: at.y, r: 2.5, class: 'joint' }));
    told.push(svg('text', { x: 2, y: at.y + 4, class: 'name start' }, id));
  }
  root.append(...told);
  return root;
}

/** Outside a section, left of the rack, along a link's lying stretch, left of the tie. */
function figuresOf(place: BarPlace, bar: JudgedBar, layout: Layout): SVGElement[] {
  const { path, id } = place;
  const [from, to] = [path[0]!, path.at(-1)!];
  const [current, rise] = [withUnit(bar.rms_A, 'A'), warmText(bar)];
  const both = layout.isCrowded ? rise : `${current} · ${rise}`;
  const upper = from.y === layout.rackTop;
  if (id.startsWith('rack.')) return [line(layout.rackX - 12, middle(from, to).y + 4, both, 'end')];
  if (path.length === 4) return [line(path[1]!.x - 10, middle(path[1]!, path[2]!).y, `${id} ${both}`, 'end')];
  const outer = (row: number): number => (upper ? from.y - 11 - 13 * row : from.y + 19 + 13 * row);
  if (to.x === layout.rackX) {
    // A link: outside where it goes on along its section, inside where it turns.
    const x = (from.x + to.x) / 2;
    const [first, second] = linkTexts(bar, layout.isCrowded);
    if (path.length > 2) return [line(x, to.y + (upper ? 18 : -11), `${first} · ${second}`, '')];
    return [line(x, outer(upper ? 2 : 1), first, ''), line(x, outer(upper ? 1 : 2), second, '')];
  }
  const x = middle(from, to).x;
  return layout.isCrowded
    ? [line(x, outer(1), rise, '')]
    : [line(x, outer(1), rise, ''), line(x, outer(2), current, '')];
}

/** Name and current, rise and joint: a link bar has room for all of it. */
function linkTexts(bar: JudgedBar, isCrowded: boolean): readonly [string, string] {
  const { bar: id, rms_A, rated_A, joint_K } = bar;
  if (isCrowded) return [id, warmText(bar)];
  const share = rated_A === null ? '' : ` (${wholePercent(rms_A / rated_A)})`;
  const joint = joint_K === null ? '' : `, joint ${riseText(joint_K)} more`;
  return [`${id} ${withUnit(rms_A, 'A')}${share}`, `${warmText(bar)}${joint}`];
}

/** The rise; a mark where the bar or its joint is over what is allowed. */
function warmText({ rise_K, warmth, runs_away }: JudgedBar): string {
  if (runs_away) return 'joint runs away';
  return `${riseText(rise_K)}${warmth === 'over' ? ' !' : ''}`;
}

function line(x: number, y: number, text: string, kind: string): SVGElement {
  return svg('text', { x, y, class: `figure ${kind}` }, text);
}

function middle(a: Point, b: Point): Point {
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
}

/** Name of a class of the style sheet. */
export function classOf(warmth: Warmth): string {
  return `warmth-${warmth.replaceAll(' ', '-')}`;
}
