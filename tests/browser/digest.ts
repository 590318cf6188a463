/** A value told as one short word, to the bit: what Node and a page both work out to see whether they hold the same. */

/**
 * Numbers by their eight bytes, texts by their letters, columns by their bytes, everything with its keys in their order.
 * Stands by itself: it is handed to a page as its own text.
 */
export function digest(value: unknown): { readonly word: string; readonly numbers: number } {
  let [a, b, numbers] = [0x811c9dc5, 0x9e3779b9, 0];
  const eight = new DataView(new ArrayBuffer(8));
  const byte = (one: number): void => {
    a = Math.imul(a ^ one, 0x01000193);
    b = Math.imul(b ^ one, 0x5bd1e995);
    b ^= b >>> 15;
  };
  const text = (words: string): void => {
    for (let k = 0; k < words.length; k += 1) byte(words.charCodeAt(k));
    byte(words.length);
  };
  const walk = (one: unknown): void => {
    if (typeof one === 'number') {
      numbers += 1;
      eight.setFloat64(0, one);
      for (let k = 0; k < 8; k += 1) byte(eight.getUint8(k));
    } else if (typeof one !== 'object' || one === null) text(`${typeof one} ${String(one)}`);
    else if (ArrayBuffer.isView(one)) {
      const bytes = new Uint8Array(one.buffer, one.byteOffset, one.byteLength);
      numbers += bytes.length / 8;
      for (let k = 0; k < bytes.length; k += 1) byte(bytes[k]!);
    } else {
      const entries = one instanceof Map ? [...one] : Object.entries(one);
      for (const [key, inner] of entries) {
        // What is not there and what is undefined are the same in a copy.
        if (inner === undefined) continue;
        text(String(key));
        walk(inner);
      }
    }
  };
  walk(value);
  return { word: [a, b].map((half) => (half >>> 0).toString(16).padStart(8, '0')).join(''), numbers };
}
