/** The bundle that the page carries: manifest as JSON, each file gzipped and in base64. */
import { decodeBundle } from '../src/bundle/decode.ts';
import type { Bundle, Manifest } from '../src/bundle/format.ts';
import { byId } from './dom.ts';

export async function unpack(): Promise<Bundle> {
  const manifest = JSON.parse(byId('manifest').textContent ?? '') as Manifest;
  const files = new Map<string, Uint8Array>();
  for (const { name } of manifest.files) {
    const text = byId(`file-${name}`).textContent ?? '';
    files.set(name, await inflate(bytesOf(text.trim())));
  }
  return decodeBundle(manifest, files);
}

function bytesOf(base64: string): Uint8Array<ArrayBuffer> {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let k = 0; k < text.length; k += 1) bytes[k] = text.charCodeAt(k);
  return bytes;
}

async function inflate(bytes: Uint8Array<ArrayBuffer>): Promise<Uint8Array> {
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}
