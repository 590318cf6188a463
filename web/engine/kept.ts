/** What a worker is opened with: the inputs' texts that the page carries. */
import type { InputEntry, Provenance } from '../../src/bundle/format.ts';
import type { ReadInput } from '../../src/bundle/pack-input.ts';
import {
  engineName,
  type PageEngine,
  pageEngineName,
  studyInputsName,
} from '../../src/bundle/page-contents.ts';
import { carried, isCarried, unzipped } from '../carried.ts';
import type { Kept, KeptStudy } from './worker/order.ts';

/** The inputs of a kept run as they were read, and the limits that came with the tool. */
export async function keptRun({ request, inputs }: Provenance): Promise<Kept> {
  const read = inputs.map(async ({ path, sha256, gzip, content }) => ({
    path,
    sha256,
    bytes: gzip ? await unzipped(new Uint8Array(content)) : content,
  }));
  const { shippedLimits } = await pageEngine();
  return { request, inputs: await Promise.all(read), shippedLimits };
}

/** The kept run was made by the sources that the page's engine is made of. */
export async function isOfThisBuild({ build }: Provenance): Promise<boolean> {
  return (await pageEngine()).source_sha256 === build.source_sha256;
}

/** The page of a study holds what its trials can be run with: studies that were kept without their inputs do not. */
export function holdsStudy(): boolean {
  return isCarried(studyInputsName) && isCarried(engineName);
}

/** The inputs of a kept study as they were read. */
export async function keptStudy(): Promise<KeptStudy> {
  const entries = (await carriedJson(studyInputsName)) as readonly Pick<
    InputEntry,
    'path' | 'sha256' | 'file'
  >[];
  const read = entries.map(
    async ({ path, sha256, file }): Promise<ReadInput> => ({ path, sha256, bytes: await carried(file) }),
  );
  return { inputs: await Promise.all(read) };
}

async function pageEngine(): Promise<PageEngine> {
  return (await carriedJson(pageEngineName)) as PageEngine;
}

/** Its sum has been checked: what is in it is what the page was made with. */
async function carriedJson(name: string): Promise<unknown> {
  return JSON.parse(new TextDecoder().decode(await carried(name)));
}
