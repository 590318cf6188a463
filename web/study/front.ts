/** Designs as points over two objectives: those on the front joined by steps, those that fail crossed. */
import { curveStepAfter, curveStepBefore, line, scaleLinear } from 'd3';
import {
  isMore,
  type Objective,
  objectiveText,
  objectiveWords,
} from '../../src/studies/designs/objectives.ts';
import type { DesignRow, DesignsReport, Standing } from '../../src/studies/designs/report.ts';
import { html, svg } from '../dom.ts';
import { across, type Field, number, upward } from './chart/axes.ts';
import { chart, type Drawing } from './chart/chart.ts';
import type { Words } from './words.ts';

interface Place {
  readonly row: DesignRow;
  readonly x: number;
  readonly y: number;
}

const standingWords: Readonly<Record<Standing, string>> = {
  front: 'on the front',
  'passes, beaten': 'passes, beaten by another one',
  beaten: 'left out: beaten, whatever it comes to',
  fails: 'fails',
};

/** What a step of an axis is round in, in SI: losses in kilowatt-hours. */
const shownUnit: Readonly<Record<Objective, number>> = {
  cost: 1,
  mass: 1,
  rack_units: 1,
  losses: 3.6e6,
  headroom: 1,
  yield: 1,
};

function placeText(objective: Objective, place: number): string {
  return objectiveText(objective, place * shownUnit[objective]);
}

/**
 * The axis upward of a study with one objective is the tightest headroom. A design that failed on its way stands at the
 * tightest of what was run of it; those without both numbers are not drawn.
 */
export function placesOf({
  designs,
  objectives: [first, second],
}: Pick<DesignsReport, 'designs' | 'objectives'>): readonly Place[] {
  const drawnAt = ({ objectives, run, standing }: DesignRow, objective: Objective): number | null => {
    const whole = objectives[objective] ?? null;
    return whole === null && objective === 'headroom' && standing === 'fails'
      ? (run?.tightest_ratio ?? null)
      : whole;
  };
  return designs.flatMap((row): Place[] => {
    const x = drawnAt(row, first!);
    const y = second === undefined ? (row.run?.tightest_ratio ?? null) : drawnAt(row, second);
    const [across = 'headroom', up = 'headroom'] = [first, second];
    return x === null || y === null ? [] : [{ row, x: x / shownUnit[across], y: y / shownUnit[up] }];
  });
}

/** `chosen`: told the design of the point that is chosen. */
export function frontOver(
  report: DesignsReport,
  words: Words,
  chosen: (row: DesignRow) => void,
): HTMLElement {
  const places = placesOf(report);
  const [first = 'headroom', second = 'headroom'] = report.objectives;
  if (places.length === 0)
    return html(
      'p',
      { class: 'small' },
      `Nothing is drawn: no design came as far as both ${objectiveWords[first]} and ${objectiveWords[second]}. What each came to stands below.`,
    );
  return chart({
    label: `designs over ${objectiveWords[first]} and ${objectiveWords[second]}`,
    height: (width) => Math.max(280, Math.min(420, 0.4 * width)),
    draw: (width, height) => drawn(places, [first, second], words, width, height),
    chosen: (stop) => chosen(places[stop]!.row),
  });
}

function drawn(
  places: readonly Place[],
  [first, second]: readonly [Objective, Objective],
  words: Words,
  width: number,
  height: number,
): Drawing {
  const field: Field = { left: 76, right: width - 24, top: 28, bottom: height - 40 };
  const x = scaleLinear(spanOf(places.map((place) => place.x)), [field.left + 10, field.right - 10]).nice();
  const y = scaleLinear(spanOf(places.map((place) => place.y)), [field.bottom - 10, field.top + 10]).nice();
  const front = places.filter(({ row }) => row.standing === 'front').sort((a, b) => a.x - b.x);
  // What the front beats lies on the worse side of it.
  const steps = line<Place>(
    (place) => x(place.x),
    (place) => y(place.y),
  ).curve(isMore(first) ? curveStepBefore : curveStepAfter);
  return {
    row: 0,
    children: [
      ...upward(
        field,
        y.ticks(5).map((value) => ({ at: y(value), words: axisText(second, value) })),
        objectiveWords[second],
      ),
      ...across(
        field,
        x.ticks(6).map((value) => ({ at: x(value), words: axisText(first, value) })),
        objectiveWords[first],
        true,
      ),
      ...(front.length < 2 ? [] : [svg('path', { class: 'curve', fill: 'none', d: steps(front) ?? '' })]),
      ...places.map(({ row, ...at }) => mark(row.standing, x(at.x), y(at.y))),
    ],
    stops: places.map(({ row, ...at }) => ({
      x: x(at.x),
      y: y(at.y),
      words: `${Object.values(row.values).join(', ')}: ${objectiveWords[first]} ${placeText(first, at.x)}, ${objectiveWords[second]} ${placeText(second, at.y)}; ${standingWords[row.standing]}${row.run === null ? '' : `, tightest ${words.key(row.run.binding) ?? row.run.binding}`}`,
    })),
  };
}

/** A full dot on the front, a ring where it is beaten, a cross where it fails. */
function mark(standing: Standing, x: number, y: number): SVGElement {
  if (standing === 'fails') return svg('path', { class: 'cross', d: `M${x - 4},${y - 4}l8,8m0,-8l-8,8` });
  return svg('circle', {
    class: standing === 'front' ? 'dot front' : 'dot hollow',
    cx: x,
    cy: y,
    r: standing === 'front' ? 5 : 3.5,
  });
}

function spanOf(values: readonly number[]): [number, number] {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  return high > low
    ? [low, high]
    : [low - Math.max(1e-9, Math.abs(low) / 10), high + Math.max(1e-9, Math.abs(high) / 10)];
}

function axisText(objective: Objective, place: number): string {
  return objective === 'cost' || objective === 'rack_units' ? number(place, 6) : placeText(objective, place);
}
