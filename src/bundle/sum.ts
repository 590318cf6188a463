import { createHash } from 'node:crypto';

/** Hexadecimal SHA-256 of the bytes. */
export function sha256(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}
