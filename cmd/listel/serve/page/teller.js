// teller.js: what others listen to.
//
//   x.on(type, fn)        calls fn(value) when x tells of the type; returns a function that stops it
//   x.tell(type, value)

export class Teller {
  #listeners = new Map();

  on(type, fn) {
    if (!this.#listeners.has(type)) this.#listeners.set(type, new Set());
    this.#listeners.get(type).add(fn);
    return () => this.#listeners.get(type).delete(fn);
  }

  tell(type, value) {
    for (const fn of this.#listeners.get(type) ?? []) fn(value);
  }
}
