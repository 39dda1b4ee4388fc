/** A stream that hands on what is pushed to whoever listens: as much of it as the writer of PDF asks for. */
import { EventEmitter } from './events.js';

export class Readable extends EventEmitter {
  readonly #waiting: unknown[] = [];

  /** Null ends the stream. What is pushed before anybody listens waits. */
  push(chunk: unknown): boolean {
    this.#waiting.push(chunk);
    queueMicrotask(() => {
      for (const next of this.#waiting.splice(0)) {
        if (next === null) this.emit('end');
        else this.emit('data', next);
      }
    });
    return true;
  }
}
