/** What a page says of the engine it carries, as `engine.json`. */
export const pageEngineName = 'engine.json';

export interface PageEngine {
  /** SHA-256 over the sources it was made of: the kept run may be of another build. */
  readonly source_sha256: string;
  /** Limits as the project ships them, which a scenario's own are compared with. */
  readonly shippedLimits: { readonly file: string; readonly text: string };
}
