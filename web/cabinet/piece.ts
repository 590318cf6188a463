/** One thing on the drawing that follows the cursor and says what it is. */
export interface Piece {
  /** Brings the piece to a bucket. */
  readonly update: (bucket: number) => void;
  /** What hover and focus say. */
  readonly words: (bucket: number) => string;
  readonly target: SVGGElement;
  /** Bar or unit. */
  readonly id: string;
}
