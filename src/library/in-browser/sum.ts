/** Stands in the library's build for browsers for the sum of `bundle/`, which is Node's: a browser has none that answers at once. */
import { sha256 as sumOf } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';

export function sha256(bytes: Uint8Array): string {
  return bytesToHex(sumOf(bytes));
}
