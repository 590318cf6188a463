/**
 * One function of the kernel in both its forms: for every cabinet, and linked to one. Each has a place of its own, so that who
 * calls it at every step looks up no name.
 */
import type { Int } from '../../base/int.ts';

export class Way<F> {
  private readonly every: F;
  private own: F;
  /** Address of the structure that its own form is linked to; 0: to none. */
  private to: Int = 0;

  constructor(every: F) {
    this.every = every;
    this.own = every;
  }

  /** The form by which it is to be called over a structure: what is linked to another is not for this one. */
  over(address: Int): F {
    return this.to === address ? this.own : this.every;
  }

  isLinkedTo(address: Int): boolean {
    return this.to === address;
  }

  get isLinked(): boolean {
    return this.to !== 0;
  }

  link(own: F, address: Int): void {
    this.own = own;
    this.to = address;
  }

  unlink(): void {
    this.to = 0;
  }
}

/** A way for each function. */
export type Ways<Functions> = { readonly [name in keyof Functions]: Way<Functions[name]> };
