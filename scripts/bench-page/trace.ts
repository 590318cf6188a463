/** What the browser's own trace says of a stretch of use: processor time of script a frame, layouts forced by script. */

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
  readonly pid: number;
  readonly tid: number;
}

export interface Used {
  readonly frames_count: number;
  /** Processor time of script, in each frame with the events before it [s]. */
  readonly mean_s: number;
  readonly worst_s: number;
  readonly forced_layouts_count: number;
}

/** Enough for script and layout; `v8` and pictures would slow down what is measured. */
export const categories: readonly string[] = ['devtools.timeline', 'toplevel'];

/** Ends the script of a frame: what several callbacks of one frame took is one sum. */
const frameEnd = 'PrePaint';

const scripts = new Set([
  'FunctionCall',
  'EventDispatch',
  'FireAnimationFrame',
  'TimerFire',
  'RunMicrotasks',
]);
const layouts = new Set(['Layout', 'UpdateLayoutTree']);

/** Of the thread that runs the page's frames. */
export function usedIn(trace: Buffer): Used {
  const { traceEvents } = JSON.parse(trace.toString()) as { traceEvents: TraceEvent[] };
  const frame = traceEvents.find(({ name }) => name === 'FireAnimationFrame');
  if (frame === undefined) throw new RangeError('the trace has no animation frame');
  const own = traceEvents
    .filter(({ ph, pid, tid }) => ph === 'X' && pid === frame.pid && tid === frame.tid)
    .sort((a, b) => a.ts - b.ts || (b.dur ?? 0) - (a.dur ?? 0));
  const frames: number[] = [];
  let [until, gathered, forced] = [0, 0, 0];
  for (const { name, ts, dur, tdur } of own) {
    const inside = ts < until;
    if (inside && layouts.has(name)) forced += 1;
    else if (!inside && scripts.has(name)) {
      until = ts + (dur ?? 0);
      gathered += tdur ?? dur ?? 0;
    } else if (!inside && name === frameEnd && gathered > 0) {
      frames.push(gathered);
      gathered = 0;
    }
  }
  const sum = frames.reduce((total, one) => total + one, 0);
  return {
    frames_count: frames.length,
    mean_s: (sum / frames.length) * 1e-6,
    worst_s: Math.max(...frames) * 1e-6,
    forced_layouts_count: forced,
  };
}
