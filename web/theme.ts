/** Colours and patterns, read from the style sheet so that canvas and page never disagree. */
import { interpolateRgb } from 'd3';
import type { Address } from './address.ts';
import { byId } from './dom.ts';
import type { Pen } from './pen/pen.ts';

export type Ink =
  | 'ink'
  | 'muted'
  | 'faint'
  | 'line'
  | 'panel'
  | 'copper'
  | 'copper-soft'
  | 'tray'
  | 'battery'
  | 'capacitor'
  | 'band'
  | 'fail'
  | 'pass';

const cache = new Map<Ink, string>();
const tiles = new Map<string, CanvasPattern | string>();

/** The colour of that name in the present theme. */
export function ink(name: Ink): string {
  let value = cache.get(name);
  if (value === undefined) {
    value = getComputedStyle(document.documentElement).getPropertyValue(`--${name}`).trim();
    cache.set(name, value);
  }
  return value;
}

type Hatch = 'plain' | 'rising' | 'dots' | 'falling';

/** Width of a tile of strokes or dots [px]. */
const tile_px = 8;

/** A fill that can be told without its colour: plain and lighter, rising strokes, dots, falling strokes. */
export function hatch(pen: Pen, name: Ink, kind: Hatch): CanvasPattern | string {
  if (kind === 'plain') return interpolateRgb(ink('panel'), ink(name))(0.62);
  const key = `${name} ${kind}`;
  if (pen.tile !== undefined) return pen.tile(key, tile_px, (own) => drawTile(own, name, kind));
  let fill = tiles.get(key);
  if (fill === undefined) {
    fill = bitmapOf(name, kind) ?? ink(name);
    tiles.set(key, fill);
  }
  return fill;
}

function bitmapOf(name: Ink, kind: Exclude<Hatch, 'plain'>): CanvasPattern | null {
  const tile = document.createElement('canvas');
  tile.width = tile_px;
  tile.height = tile_px;
  const pen = tile.getContext('2d')!;
  drawTile(pen, name, kind);
  return pen.createPattern(tile, 'repeat');
}

function drawTile(pen: Pen, name: Ink, kind: Exclude<Hatch, 'plain'>): void {
  const size = tile_px;
  pen.globalAlpha = 0.3;
  pen.fillStyle = ink(name);
  pen.fillRect(0, 0, size, size);
  pen.globalAlpha = 1;
  pen.strokeStyle = ink(name);
  pen.lineWidth = 1.6;
  pen.beginPath();
  if (kind === 'dots') {
    pen.arc(2, 2, 1.3, 0, 7);
    pen.moveTo(7.3, 6);
    pen.arc(6, 6, 1.3, 0, 7);
    pen.fill();
  } else {
    for (const shift of [-size, 0, size]) {
      pen.moveTo(shift - 1, kind === 'rising' ? size + 1 : -1);
      pen.lineTo(shift + size + 1, kind === 'rising' ? -1 : size + 1);
    }
    pen.stroke();
  }
}

/** Runs `draw` in light colours, whatever the page shows: what leaves it is for paper. */
export function inLight<T>(draw: () => T): T {
  const root = document.documentElement;
  const shown = root.dataset['theme'] ?? 'auto';
  const recolour = (theme: string): void => {
    root.dataset['theme'] = theme;
    cache.clear();
    tiles.clear();
  };
  recolour('light');
  try {
    return draw();
  } finally {
    recolour(shown);
  }
}

const choices = ['auto', 'light', 'dark'] as const;

type Choice = (typeof choices)[number];

/** The switch in the head: auto follows the system. `changed` runs after every change of colours. */
export function startTheme(address: Address, changed: () => void): void {
  const button = byId('theme');
  const addressed = (): Choice => choices.find((name) => name === address.get('theme')) ?? 'auto';
  let choice = addressed();
  const apply = (): void => {
    document.documentElement.dataset['theme'] = choice;
    button.textContent = `Theme: ${choice}`;
    address.set('theme', choice === 'auto' ? null : choice);
    cache.clear();
    tiles.clear();
    changed();
  };
  button.addEventListener('click', () => {
    choice = choices[(choices.indexOf(choice) + 1) % choices.length]!;
    apply();
  });
  address.watch(() => {
    choice = addressed();
    apply();
  });
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', apply);
  apply();
}
