/** Numbers as C99 reads them exactly: hexadecimal floating constants, the same bits whatever reads them. */

const view = new DataView(new ArrayBuffer(8));

/** A double as C99 writes it: `0x1.8p+1`, `-0x0p+0`, `inf`, `-inf`, `nan`. */
export function hexFloat(x: number): string {
  if (Number.isNaN(x)) return 'nan';
  view.setFloat64(0, x);
  const high = view.getUint32(0);
  const sign = high >>> 31 === 1 ? '-' : '';
  if (!Number.isFinite(x)) return `${sign}inf`;
  const exponent = (high >>> 20) & 0x7ff;
  const digits = hex(high & 0xfffff, 5) + hex(view.getUint32(4), 8);
  const fraction = digits.replace(/0+$/, '');
  if (exponent === 0 && fraction === '') return `${sign}0x0p+0`;
  // Below the smallest normal number the first digit is 0, and the exponent stands.
  const [first, power] = exponent === 0 ? [0, -1022] : [1, exponent - 1023];
  return `${sign}0x${first}${fraction === '' ? '' : `.${fraction}`}p${power < 0 ? '' : '+'}${power}`;
}

const hex = (whole: number, places: number): string => whole.toString(16).padStart(places, '0');

/** A double as a constant in a text of C, as people read it beside it. */
export function constant(x: number): string {
  if (Number.isNaN(x)) throw new RangeError('no number: C has no constant for it');
  if (!Number.isFinite(x)) return x < 0 ? '-INFINITY' : 'INFINITY';
  return Number.isInteger(x) && Math.abs(x) < 1e15 && !Object.is(x, -0)
    ? `${x}.0`
    : `${hexFloat(x)} /* ${Number(x.toPrecision(12))} */`;
}
