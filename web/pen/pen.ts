/** What plots draw with: the part of a canvas that they use, so that the same strokes can also become vectors. */
export interface Pen
  extends Pick<
    CanvasRenderingContext2D,
    | 'arc'
    | 'beginPath'
    | 'clip'
    | 'fill'
    | 'fillRect'
    | 'fillStyle'
    | 'fillText'
    | 'font'
    | 'globalAlpha'
    | 'lineJoin'
    | 'lineTo'
    | 'lineWidth'
    | 'measureText'
    | 'moveTo'
    | 'rect'
    | 'restore'
    | 'roundRect'
    | 'save'
    | 'setLineDash'
    | 'stroke'
    | 'strokeStyle'
    | 'textAlign'
    | 'textBaseline'
  > {
  /**
   * A fill of square tiles, `size` pixels wide, each drawn by `draw`; the same name is the same tile. A canvas has none and
   * takes its own patterns.
   */
  tile?(name: string, size: number, draw: (pen: Pen) => void): string;
}
