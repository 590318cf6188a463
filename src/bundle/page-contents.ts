/** What a page carries beside the files of a kept run or study, and instead of two of them: the names under which it asks for it. */

/** Long rows of numbers: a page carries a picture of them. */
export const picturedFiles: ReadonlySet<string> = new Set(['wake.f32', 'streams.f64']);

/** Head and numbers of the picture. */
export const pictureHeadName = 'picture.json';
export const pictureName = 'picture.bin';

/** Of `streams.f64` the tables of stays, as they are. */
export const staysName = 'stays.f64';

/** The engine, as one text that a worker is made of. */
export const engineName = 'engine.js';

/** Of a study's page: which inputs it carries, and under which names. */
export const studyInputsName = 'inputs.json';

/** What a page says of the engine it carries. */
export const pageEngineName = 'engine.json';

export interface PageEngine {
  /** SHA-256 over the sources it was made of: the kept run may be of another build. */
  readonly source_sha256: string;
  /** Limits as the project ships them, which a scenario's own are compared with. */
  readonly shippedLimits: { readonly file: string; readonly text: string };
}
