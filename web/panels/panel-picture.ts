/** A time panel as a picture: the stretch asked for, with its time axis and a line at the moment asked for. */
import { makeOutline } from '../columns.ts';
import { stretchOf } from '../frame.ts';
import { moment } from '../numbers.ts';
import type { Record } from '../record.ts';
import { pictureOf, plotWidth } from '../taken/picture.ts';
import type { View } from '../taken/plot.ts';
import { ink } from '../theme.ts';
import { drawPanel, drawTimeAxis, drawValueAxis, valueAxis } from './panel-drawing.ts';
import type { PanelSpec } from './panel-spec.ts';

/** Room for the time axis [px]. */
const axis_px = 22;

export function panelPicture(
  spec: PanelSpec,
  record: Record,
  range: readonly [number, number],
  outer: number,
  view: View,
): SVGSVGElement {
  const width = plotWidth(outer);
  const { height } = spec;
  const at = moment(view.cursor_s, view.to_s - view.from_s);
  return pictureOf({
    title: `${spec.title}, values at ${at}`,
    width: outer,
    height: height + axis_px,
    legend: spec.rows(record.bucketAt(view.cursor_s)),
    draw(pen, axes) {
      const axis = valueAxis(range, height);
      const stretch = stretchOf(view, record, width);
      const outline = makeOutline(width);
      pen.save();
      pen.beginPath();
      pen.rect(0, 0, width, height);
      pen.clip();
      drawPanel(
        { pen, width, height, stretch, buckets: record, outline, y: axis.y, words: [] },
        axis.ticks,
        spec,
        record,
      );
      pen.fillStyle = ink('ink');
      pen.fillRect(((view.cursor_s - view.from_s) / (view.to_s - view.from_s)) * width - 0.5, 0, 1, height);
      pen.restore();
      drawValueAxis(axes, axis, spec.unit);
      drawTimeAxis(axes, view, width, height);
    },
  });
}
