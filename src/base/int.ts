/**
 * A whole number that counts or points at a place. In the compiled kernel it has 32 bits; every number that is not
 * called so is a 64-bit float there, as all numbers are here.
 */
export type Int = number;
