/** The run that the page carries: the report and all that is not long as it was kept, and a picture of its samples. */
import type { Report } from '../src/analysis/judge/report.ts';
import { BadInput } from '../src/base/problem.ts';
import { isOfStays, unpackColumns } from '../src/bundle/columns.ts';
import { decodeAround, decodeReport } from '../src/bundle/decode.ts';
import { type Bundle, manifestName } from '../src/bundle/format.ts';
import { manifestFrom } from '../src/bundle/manifest-shape.ts';
import { picturedFiles, pictureHeadName, pictureName, staysName } from '../src/bundle/page-contents.ts';
import { type PictureHead, unpackPicture } from '../src/picture/packed.ts';
import { carried } from './carried.ts';

/**
 * `shown` is given the report before the long rest is unpacked, and waited for. Throws BadInput where the page is not whole,
 * not as it was packed, or of another version.
 */
export async function unpack(shown: (report: Report) => Promise<void>): Promise<Bundle> {
  const manifest = manifestFrom(await carriedJson(manifestName, 'the manifest of a bundle'), manifestName);
  const files = new Map<string, Uint8Array>();
  for (const { name, sha256 } of manifest.files)
    if (!picturedFiles.has(name)) files.set(name, await carried(name, sha256));
  await shown(decodeReport(files));
  const head = (await carriedJson(pictureHeadName, 'the head of a picture')) as PictureHead;
  const { recording, even } = unpackPicture(
    { head, bytes: await carried(pictureName) },
    manifest.wake.channels,
  );
  const columns = new Map(even.map(({ name, values }) => [name, values]));
  const stays = unpackColumns(manifest.columns.filter(isOfStays), await carried(staysName));
  for (const [name, values] of stays) columns.set(name, values);
  return decodeAround(manifest, files, { recording, columns });
}

/** Its sum has been checked: what is in it is what the page was made with. */
async function carriedJson(name: string, expected: string): Promise<unknown> {
  try {
    return JSON.parse(new TextDecoder().decode(await carried(name)));
  } catch (error) {
    if (error instanceof BadInput) throw error;
    throw new BadInput([
      {
        severity: 'error',
        file: name,
        found: 'text that is not JSON',
        expected,
        mend: 'make the page anew with buswake view',
      },
    ]);
  }
}
