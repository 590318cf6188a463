/**
 * How much the page of a run weighs: `page-sizes.ts [--duration 60s] [--most 2] [SCENARIO …]`, every shipped scenario where
 * none is named. Fails where a page weighs more than so many MB. How much of it are buckets and close-ups, packed, and how
 * near to its lines these lie, stands beside it.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { gzipSync } from 'node:zlib';
import { decodeBundle } from '../src/bundle/decode.ts';
import { manifestName } from '../src/bundle/format.ts';
import { type BundleFiles, readBundleFiles } from '../src/bundle/read.ts';
import { makePage } from '../src/cli/pages/page.ts';
import { packPicture } from '../src/picture/packed.ts';
import { pictureOf } from '../src/picture/picture.ts';

const { values, positionals } = parseArgs({
  options: { duration: { type: 'string', default: '60s' }, most: { type: 'string', default: '2' } },
  allowPositionals: true,
});
const shipped = readdirSync('scenarios')
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => name.replace('.yaml', ''));
const root = mkdtempSync(join(tmpdir(), 'page-sizes-'));
const kB = (bytes: number): string => `${Math.round(bytes / 1e3)} kB`;
try {
  for (const id of positionals.length > 0 ? positionals : shipped) {
    const kept = join(root, id);
    const lasting = ['--set', `duration=${values.duration}`];
    // What a recording or a plan does not allow to last longer is run as it is.
    const length = ran(id, kept, lasting) ? values.duration : ran(id, kept, []) ? 'as it is' : null;
    if (length === null) throw new Error(`${id} does not run`);
    const bundle = readBundleFiles(kept);
    const bytes = Buffer.byteLength(makePage(bundle));
    console.log(`${id}, ${length}: ${(bytes / 1e6).toFixed(2)} MB; ${partsOf(bundle)}`);
    if (bytes > Number(values.most) * 1e6) process.exitCode = 1;
    rmSync(kept, { recursive: true });
  }
} finally {
  rmSync(root, { recursive: true });
}

function ran(id: string, kept: string, changes: readonly string[]): boolean {
  const asked = ['run', id, ...changes, '--out', kept];
  spawnSync('node', ['scripts/buswake.mjs', ...asked], { stdio: 'ignore' });
  return existsSync(join(kept, manifestName));
}

function partsOf({ manifest, files }: BundleFiles): string {
  const { result, scenario } = decodeBundle(manifest, files);
  const picture = pictureOf(result);
  const packed = (part: typeof picture): number => gzipSync(packPicture(part, scenario.tick_s).bytes).length;
  const all = packed(picture);
  const buckets = packed({ ...picture, closeUps: [], even: [] });
  const stretches = packed({ ...picture, even: [] }) - buckets;
  const lines = `within ${100 * picture.straight_ratio} % of their range`;
  return `buckets ${kB(buckets)}, close-ups ${kB(stretches)} ${lines}, streams ${kB(all - buckets - stretches)}`;
}
