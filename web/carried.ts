/** What the page carries, by name: gzipped and in base64, checked against the sum it was packed with. */
import { BadInput } from '../src/base/problem.ts';

/** The bytes of a file, of the sum that is known of it. Throws BadInput where it is missing, cut or not as it was packed. */
export async function carried(name: string, known?: string): Promise<Uint8Array<ArrayBuffer>> {
  const element = document.getElementById(`file-${name}`);
  if (element === null) throw damaged(name, 'nothing under that name in the page');
  const bytes = await bytesOf(element.textContent ?? '').catch(() => {
    throw damaged(name, 'bytes that are not as they were packed');
  });
  const packedWith = element.dataset['sha256'];
  const sum = (await sha256(bytes)) ?? packedWith;
  if (sum !== (known ?? packedWith))
    throw damaged(name, `SHA-256 ${sum?.slice(0, 12)}…, another than it was packed with`);
  return bytes;
}

export function isCarried(name: string): boolean {
  return document.getElementById(`file-${name}`) !== null;
}

async function bytesOf(base64: string): Promise<Uint8Array<ArrayBuffer>> {
  const text = atob(base64.trim());
  const bytes = new Uint8Array(text.length);
  for (let k = 0; k < text.length; k += 1) bytes[k] = text.charCodeAt(k);
  return unzipped(bytes);
}

/** A gzip stream ends in a sum and a length of its own: one that was changed does not unpack, and throws. */
export async function unzipped(bytes: Uint8Array<ArrayBuffer>): Promise<Uint8Array<ArrayBuffer>> {
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

/** Hexadecimal; null where the browser keeps its sums for secure pages: from disk and loopback it does not. */
async function sha256(bytes: Uint8Array<ArrayBuffer>): Promise<string | null> {
  if (crypto.subtle === undefined) return null;
  const sum = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return [...sum].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

function damaged(name: string, found: string): BadInput {
  return new BadInput([
    {
      severity: 'error',
      file: name,
      found,
      expected: 'the file as the page was made with it',
      mend: 'the page was cut short or changed: copy it again, or make it anew with buswake view',
    },
  ]);
}
