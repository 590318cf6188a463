/** The worst moment of each finding, pinned to the trace it was read from with the finding's number in the list. */
import type { Finding } from '../../src/analysis/judge/report.ts';
import type { JudgedRun } from '../../src/bundle/format.ts';
import type { Box, Frame } from '../frame.ts';
import { type Place, placeOf } from '../places.ts';
import { isJudged, ranked } from '../ranked.ts';
import { ink } from '../theme.ts';
import { line_px } from './word-place.ts';

export interface Pin {
  readonly number: number;
  readonly finding: Finding;
  readonly time_s: number;
  readonly side: 'lower' | 'upper';
}

/** Pins of what is drawn at some places, the binding one first. */
export function pinsOf(places: readonly Place[], { report, scenario }: JudgedRun): readonly Pin[] {
  return ranked(report.findings).flatMap(({ number, finding }) => {
    const { time_s } = finding;
    if (time_s === null || !isJudged(finding) || !places.includes(placeOf(finding, scenario))) return [];
    const side = scenario.limits.find(({ id }) => id === finding.id)?.side ?? 'upper';
    return [{ number, finding, time_s, side }];
  });
}

const tag_px = 15;
/** From the point to its tag. */
const stem_px = 9;

/** Draws them at the values `heightOf` gives. A pin whose tag would cover another's is left to that one. */
export function drawPins(frame: Frame, pins: readonly Pin[], heightOf: (pin: Pin) => number): void {
  const { pen, y, width, height, stretch, words } = frame;
  const scale = width / (stretch.to_s - stretch.from_s);
  const taken: (readonly [number, number])[] = [];
  pen.save();
  pen.font = '600 10px system-ui, sans-serif';
  pen.textAlign = 'center';
  pen.textBaseline = 'middle';
  pen.lineWidth = 1.2;
  for (const pin of pins) {
    const x = (pin.time_s - stretch.from_s) * scale;
    const value = heightOf(pin);
    if (x < 0 || x > width || !Number.isFinite(value)) continue;
    const at = Math.min(height - 3, Math.max(3, y(value)));
    const fails = pin.finding.verdict === 'fail';
    const centre = Math.min(width - tag_px / 2 - 1, Math.max(tag_px / 2 + 1, x));
    const above = at - stem_px - tag_px / 2;
    const below = at + stem_px + tag_px / 2;
    const free = (middle: number): boolean =>
      middle > tag_px / 2 &&
      middle < height - tag_px / 2 &&
      !words.some((box) => covers(box, centre, middle));
    // Beyond the trace on its own side, or on the other where words or the edge are in the way.
    const up = pin.side === 'upper' ? free(above) || !free(below) : !free(below) && free(above);
    const middle = up ? above : below;
    if (taken.some(([a, b]) => Math.abs(a - centre) < tag_px + 2 && Math.abs(b - middle) < tag_px + 2))
      continue;
    taken.push([centre, middle]);
    pen.strokeStyle = ink(fails ? 'fail' : 'ink');
    pen.fillStyle = ink(fails ? 'fail' : 'panel');
    pen.beginPath();
    pen.moveTo(x, at);
    pen.lineTo(centre, up ? middle + tag_px / 2 : middle - tag_px / 2);
    pen.stroke();
    pen.beginPath();
    pen.roundRect(centre - tag_px / 2, middle - tag_px / 2, tag_px, tag_px, fails ? 1 : 4);
    pen.fill();
    pen.stroke();
    pen.beginPath();
    pen.arc(x, at, 2.4, 0, 7);
    pen.fillStyle = ink(fails ? 'fail' : 'ink');
    pen.fill();
    pen.fillStyle = ink(fails ? 'panel' : 'ink');
    pen.fillText(String(pin.number), centre, middle + 0.5);
  }
  pen.restore();
}

function covers({ left, top, width }: Box, x: number, y: number): boolean {
  const half = tag_px / 2;
  return x + half > left && x - half < left + width && y + half > top && y - half < top + line_px;
}
