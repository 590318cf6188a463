/** The engine as a page's worker runs it, in one text. */
import type { Plugin } from 'esbuild';
import { pageScript, web } from './bundled.ts';

/** What a page's engine leaves to the command line, by the ending of its path. */
const leftOut = ['controllers.ts', 'enclosure.ts', 'parquet-text.ts'];

/** For bundles of the engine: these files in the forms that a page has of them. */
export const asInPages: Plugin = {
  name: 'left-out',
  setup({ onResolve }) {
    for (const name of leftOut)
      onResolve({ filter: new RegExp(`/${name.replace('.', '\\.')}$`) }, ({ importer }) =>
        importer.includes('/left-out/') ? null : { path: `${web}engine/worker/left-out/${name}` },
      );
  },
};

export function engineScript(): Promise<string> {
  return pageScript('engine/worker/worker.ts', [asInPages]);
}
