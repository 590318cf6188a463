/** The margins of a loop on its curve: what the phase lacks to −180° where the gain is 1, what the gain lacks to 1 at −180°. */
import type { ScaleContinuousNumeric } from 'd3';
import type { ResponseReport } from '../../src/studies/response/report.ts';
import { svg } from '../dom.ts';
import { number } from './chart/axes.ts';

type Loop = ResponseReport['loops'][number];
type Scale = ScaleContinuousNumeric<number, number>;

/** A bar for each margin that lies within what is drawn, and the lines that both are measured from. */
export function marginMarks(loop: Loop, x: Scale, gain: Scale, phase: Scale): SVGElement[] {
  const { crossover_Hz, phase_margin_deg, phase_crossover_Hz, gain_margin_dB } = loop;
  const [first, last] = x.domain() as [number, number];
  const isShown = (f: number | null): f is number => f !== null && f >= first && f <= last;
  const level = (y: number): SVGElement =>
    svg('line', { class: 'limit', x1: x(first), x2: x(last), y1: y, y2: y });
  const bar = (f: number, from: number, to: number, words: string): SVGElement => {
    const isLeft = x(f) > (x(first) + x(last)) / 2;
    return svg(
      'g',
      {},
      svg('line', { class: 'margin', x1: x(f), x2: x(f), y1: from, y2: to }),
      svg('circle', { class: 'margin-end', cx: x(f), cy: to, r: 3 }),
      svg(
        'text',
        {
          class: 'on-lines strong',
          x: x(f) + (isLeft ? -7 : 7),
          y: (from + to) / 2 + 4,
          'text-anchor': isLeft ? 'end' : 'start',
        },
        words,
      ),
    );
  };
  const lowest = gain.domain()[0]!;
  return [
    level(gain(0)),
    level(phase(-180)),
    ...(isShown(crossover_Hz) && phase_margin_deg !== null
      ? [
          bar(
            crossover_Hz,
            phase(-180),
            phase(turned(phase_margin_deg - 180)),
            `${number(phase_margin_deg)}°`,
          ),
        ]
      : []),
    ...(isShown(phase_crossover_Hz) && gain_margin_dB !== null && -gain_margin_dB >= lowest
      ? [bar(phase_crossover_Hz, gain(0), gain(-gain_margin_dB), `${number(gain_margin_dB)} dB`)]
      : []),
  ];
}

function turned(deg: number): number {
  return deg - 360 * Math.round(deg / 360);
}
