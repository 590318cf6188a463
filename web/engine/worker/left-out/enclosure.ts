/** Stands in the page's engine for what runs a user's own controllers, of which none are read there (controllers.ts). */
export class Enclosure {
  constructor() {
    throw new RangeError("a user's own controller in the page");
  }
}
