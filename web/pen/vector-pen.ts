/** A pen that writes what is drawn with it as SVG: paths, rectangles and words, no bitmap. */
import { svg } from '../dom.ts';
import type { Pen } from './pen.ts';

/** What `save` keeps and `restore` brings back. */
interface State {
  fillStyle: string;
  strokeStyle: string;
  lineWidth: number;
  lineJoin: CanvasLineJoin;
  globalAlpha: number;
  font: string;
  textAlign: CanvasTextAlign;
  textBaseline: CanvasTextBaseline;
  dash: readonly number[];
  /** Name of the clip path that holds; null: none. */
  clip: string | null;
}

const asACanvasBegins: State = {
  fillStyle: '#000',
  strokeStyle: '#000',
  lineWidth: 1,
  lineJoin: 'miter',
  globalAlpha: 1,
  font: '10px sans-serif',
  textAlign: 'left',
  textBaseline: 'alphabetic',
  dash: [],
  clip: null,
};

const anchors: Readonly<Record<CanvasTextAlign, string>> = {
  left: 'start',
  start: 'start',
  center: 'middle',
  right: 'end',
  end: 'end',
};

/** From the line given to the line that letters stand on, over the size of the letters. */
const drops: Readonly<Record<CanvasTextBaseline, number>> = {
  alphabetic: 0,
  ideographic: 0,
  bottom: -0.22,
  middle: 0.35,
  top: 0.8,
  hanging: 0.8,
};

/** Hundredths of a pixel are finer than any print. */
function px(value: number): string {
  return String(Math.round(100 * value) / 100);
}

/** Numbers of clip paths and tiles, so that no two drawings of a page share a name. */
let named = 0;

export class VectorPen implements Pen {
  readonly #host: SVGElement;
  readonly #made: SVGElement;
  readonly #tiles = new Map<string, string>();
  readonly #kept: State[] = [];
  #state: State = { ...asACanvasBegins };
  #path = '';

  /** Draws into `host`; what has a name of its own (clip paths, tiles) stands in `made`. */
  constructor(host: SVGElement, made: SVGElement) {
    this.#host = host;
    this.#made = made;
  }

  get fillStyle(): string {
    return this.#state.fillStyle;
  }
  set fillStyle(paint: string | CanvasGradient | CanvasPattern) {
    this.#state.fillStyle = worded(paint);
  }
  get strokeStyle(): string {
    return this.#state.strokeStyle;
  }
  set strokeStyle(paint: string | CanvasGradient | CanvasPattern) {
    this.#state.strokeStyle = worded(paint);
  }
  get lineWidth(): number {
    return this.#state.lineWidth;
  }
  set lineWidth(width: number) {
    this.#state.lineWidth = width;
  }
  get lineJoin(): CanvasLineJoin {
    return this.#state.lineJoin;
  }
  set lineJoin(join: CanvasLineJoin) {
    this.#state.lineJoin = join;
  }
  get globalAlpha(): number {
    return this.#state.globalAlpha;
  }
  set globalAlpha(alpha: number) {
    this.#state.globalAlpha = alpha;
  }
  get font(): string {
    return this.#state.font;
  }
  set font(font: string) {
    this.#state.font = font;
  }
  get textAlign(): CanvasTextAlign {
    return this.#state.textAlign;
  }
  set textAlign(align: CanvasTextAlign) {
    this.#state.textAlign = align;
  }
  get textBaseline(): CanvasTextBaseline {
    return this.#state.textBaseline;
  }
  set textBaseline(baseline: CanvasTextBaseline) {
    this.#state.textBaseline = baseline;
  }

  save(): void {
    this.#kept.push({ ...this.#state });
  }
  restore(): void {
    this.#state = this.#kept.pop() ?? this.#state;
  }
  setLineDash(dash: readonly number[]): void {
    this.#state.dash = [...dash];
  }

  beginPath(): void {
    this.#path = '';
  }
  moveTo(x: number, y: number): void {
    this.#path += `M${px(x)} ${px(y)}`;
  }
  /** The first point of a path is gone to, not drawn to, as on a canvas. */
  lineTo(x: number, y: number): void {
    this.#path += `${this.#path === '' ? 'M' : 'L'}${px(x)} ${px(y)}`;
  }
  rect(x: number, y: number, width: number, height: number): void {
    this.#path += `M${px(x)} ${px(y)}h${px(width)}v${px(height)}h${px(-width)}Z`;
  }
  roundRect(x: number, y: number, width: number, height: number, radius: number): void {
    const corner = (dx: number, dy: number): string =>
      `a${px(radius)} ${px(radius)} 0 0 1 ${px(dx)} ${px(dy)}`;
    const [w, h] = [px(width - 2 * radius), px(height - 2 * radius)];
    this.#path +=
      `M${px(x + radius)} ${px(y)}h${w}${corner(radius, radius)}v${h}${corner(-radius, radius)}` +
      `h-${w}${corner(-radius, -radius)}v-${h}${corner(radius, -radius)}Z`;
  }
  /** Whole circles only: plots draw no others. */
  arc(x: number, y: number, radius: number, from: number, to: number): void {
    if (to - from < 2 * Math.PI) throw new RangeError(`an arc from ${from} to ${to} is no whole circle`);
    const r = px(radius);
    this.#path += `M${px(x - radius)} ${px(y)}a${r} ${r} 0 1 0 ${px(2 * radius)} 0a${r} ${r} 0 1 0 ${px(-2 * radius)} 0Z`;
  }

  fill(): void {
    this.#put('path', { d: this.#path, fill: this.#state.fillStyle });
  }
  stroke(): void {
    const { strokeStyle, lineWidth, lineJoin, dash } = this.#state;
    this.#put('path', {
      d: this.#path,
      fill: 'none',
      stroke: strokeStyle,
      'stroke-width': px(lineWidth),
      'stroke-linejoin': lineJoin === 'miter' ? null : lineJoin,
      'stroke-dasharray': dash.length === 0 ? null : dash.join(' '),
    });
  }
  fillRect(x: number, y: number, width: number, height: number): void {
    const fill = this.#state.fillStyle;
    this.#put('rect', { x: px(x), y: px(y), width: px(width), height: px(height), fill });
  }
  fillText(words: string, x: number, y: number): void {
    const { font, fillStyle, textAlign, textBaseline } = this.#state;
    const { weight, size_px, family } = readFont(font);
    const element = this.#put('text', {
      x: px(x),
      y: px(y + drops[textBaseline] * size_px),
      fill: fillStyle,
      'text-anchor': anchors[textAlign],
      'font-size': size_px,
      'font-weight': weight,
      'font-family': family,
    });
    element.append(words);
  }
  measureText(words: string): TextMetrics {
    measuring.font = this.#state.font;
    return measuring.measureText(words);
  }

  /** Narrows what is drawn from here on, also within a clip that holds already. */
  clip(): void {
    const id = this.#named('clip');
    const outer = this.#state.clip === null ? null : `url(#${this.#state.clip})`;
    this.#made.append(svg('clipPath', { id, 'clip-path': outer }, svg('path', { d: this.#path })));
    this.#state.clip = id;
  }

  tile(name: string, size: number, draw: (pen: Pen) => void): string {
    let id = this.#tiles.get(name);
    if (id === undefined) {
      id = this.#named('tile');
      const pattern = svg('pattern', { id, width: size, height: size, patternUnits: 'userSpaceOnUse' });
      this.#made.append(pattern);
      draw(new VectorPen(pattern, this.#made));
      this.#tiles.set(name, id);
    }
    return `url(#${id})`;
  }

  #named(kind: string): string {
    named += 1;
    return `${kind}-${named}`;
  }

  #put<K extends 'path' | 'rect' | 'text'>(
    tag: K,
    attributes: Readonly<Record<string, string | number | null>>,
  ): SVGElementTagNameMap[K] {
    const { globalAlpha, clip } = this.#state;
    const element = svg(tag, {
      ...attributes,
      opacity: globalAlpha === 1 ? null : px(globalAlpha),
      'clip-path': clip === null ? null : `url(#${clip})`,
    });
    if (attributes['d'] !== '') this.#host.append(element);
    return element;
  }
}

/** Widths of words come from a canvas: a drawing that is not on the page has none. */
const measuring = document.createElement('canvas').getContext('2d')!;

function worded(paint: string | CanvasGradient | CanvasPattern): string {
  if (typeof paint !== 'string')
    throw new TypeError('a pen of vectors takes colours and names of its own tiles');
  return paint;
}

function readFont(font: string): { weight: string | null; size_px: number; family: string } {
  const parts = /^(?:(\d+) )?([\d.]+)px (.+)$/.exec(font);
  if (parts === null) throw new RangeError(`a font of plots is [weight] size family, not ${font}`);
  return { weight: parts[1] ?? null, size_px: Number(parts[2]), family: parts[3]! };
}
