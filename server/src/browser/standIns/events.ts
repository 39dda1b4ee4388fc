/** Telling listeners, as far as the writer of PDF asks for it. */

type Listener = (...values: unknown[]) => void;

export class EventEmitter {
  readonly #listeners = new Map<string, Listener[]>();

  on(event: string, listener: Listener): this {
    this.#listeners.set(event, [...(this.#listeners.get(event) ?? []), listener]);
    return this;
  }

  addListener(event: string, listener: Listener): this {
    return this.on(event, listener);
  }

  removeListener(event: string, listener: Listener): this {
    this.#listeners.set(
      event,
      (this.#listeners.get(event) ?? []).filter((known) => known !== listener),
    );
    return this;
  }

  emit(event: string, ...values: unknown[]): boolean {
    const listeners = this.#listeners.get(event) ?? [];
    for (const listener of listeners) listener(...values);
    return listeners.length > 0;
  }
}
