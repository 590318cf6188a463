/** Makes the page of a kept run: one HTML file that holds the run's picture and the engine, and opens offline. */
import { cautionsAt } from '../../analysis/words/cautions.ts';
import { thisBuild } from '../../bundle/build.ts';
import { isOfStays, packColumns, unpackColumns } from '../../bundle/columns.ts';
import { decodeBundle } from '../../bundle/decode.ts';
import { manifestName } from '../../bundle/format.ts';
import { strictJson } from '../../bundle/json.ts';
import {
  engineName,
  type PageEngine,
  pageEngineName,
  picturedFiles,
  pictureHeadName,
  pictureName,
  staysName,
} from '../../bundle/page-contents.ts';
import type { BundleFiles } from '../../bundle/read.ts';
import type { Verification } from '../../bundle/verification.ts';
import { packPicture } from '../../picture/packed.ts';
import { pictureOf } from '../../picture/picture.ts';
import { shippedLimitsText } from '../../shipped/shipped-limits.ts';
import { checkedRun } from './checked.ts';
import { pagePart } from './page-part.ts';
import { fillShell } from './shell.ts';

/** `verification`: what running it again showed, where it was. */
export function makePage(bundle: BundleFiles, verification: Verification | null = null): string {
  const { manifest, files } = bundle;
  const { source_sha256 } = thisBuild();
  const engine: PageEngine = { source_sha256, shippedLimits: shippedLimitsText() };
  const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
  const { result, scenario } = decodeBundle(manifest, files);
  const picture = packPicture(pictureOf(result), scenario.tick_s);
  return fillShell({
    main: 'main.html',
    maker: 'view',
    traces: 'ruler',
    cautions: cautionsAt(scenario.nominal_V),
    checked: checkedRun(verification),
    style: pagePart('style.css'),
    script: pagePart('main.js'),
    carried: [
      [manifestName, bytes(strictJson(manifestName, manifest))],
      ...[...files].filter(([name]) => !picturedFiles.has(name)),
      [pictureHeadName, bytes(strictJson(pictureHeadName, picture.head))],
      [pictureName, picture.bytes],
      [staysName, staysOf(bundle)],
      // What the page needs to run it under changes.
      [engineName, bytes(pagePart('engine/worker/worker.js'))],
      [pageEngineName, bytes(JSON.stringify(engine))],
    ],
  });
}

/** The tables of stays as they are: exact, and small. */
function staysOf({ manifest, files }: BundleFiles): Uint8Array {
  const columns = unpackColumns(manifest.columns, files.get('streams.f64')!);
  const stays = manifest.columns.filter(isOfStays);
  return packColumns(stays.map(({ name }) => ({ name, values: columns.get(name)! }))).bytes;
}
