/** Several threads that draw PDFs, for whoever has many of them. */

import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { RenderedPdf } from '../pdf/draw.js';
import type { DrawTask } from '../pdf/task.js';
import type { Spoken } from './language.js';

/** More of them would not fit what a laptop can spare. */
const MOST_THREADS = 2;
/** A document is drawn and forgotten: without a limit, a thread would only clean up when it is far larger. */
const MEMORY = { maxOldGenerationSizeMb: 160, maxYoungGenerationSizeMb: 48 };
/** Fewer documents are drawn before a thread has started. */
const WORTH_IT = 6;

export interface PdfPool {
  /** How many documents can be drawn at once. */
  readonly width: number;
  draw(task: DrawTask): Promise<RenderedPdf>;
  close(): Promise<void>;
}

interface Waiting {
  readonly resolve: (drawn: RenderedPdf) => void;
  readonly reject: (error: Error) => void;
}

/** Threads for `documents` documents; for a few of them, or where there is one processor, all is drawn here. */
export function pdfPool(documents: number, spoken: Spoken): PdfPool {
  const here: PdfPool = {
    width: 1,
    draw: async (task) => (await import('./pdf.js')).drawHere(task, spoken),
    close: async () => undefined,
  };
  // From the sources there is no bundle for a thread.
  const file = path.join(path.dirname(fileURLToPath(import.meta.url)), 'pdfWorker.mjs');
  const threads = Math.min(os.availableParallelism(), MOST_THREADS);
  if (documents < WORTH_IT || threads < 2 || !fs.existsSync(file)) return here;
  return threadPool(file, threads, spoken);
}

function threadPool(file: string, threads: number, spoken: Spoken): PdfPool {
  const waiting = new Map<number, Waiting>();
  const busy = new Map<Worker, number>();
  let next = 0;
  const fail = (error: Error): void => {
    for (const { reject } of waiting.values()) reject(error);
    waiting.clear();
  };
  const start = (): void => {
    const worker = new Worker(file, { resourceLimits: MEMORY, workerData: spoken });
    busy.set(worker, 0);
    worker.on('error', fail);
    worker.on('message', ({ id, drawn, failed }: { id: number; drawn?: RenderedPdf; failed?: string }) => {
      const asked = waiting.get(id);
      waiting.delete(id);
      busy.set(worker, (busy.get(worker) ?? 1) - 1);
      if (drawn) asked?.resolve(drawn);
      else asked?.reject(new Error(failed ?? 'a document could not be drawn'));
    });
  };
  return {
    width: threads,
    draw: (task) =>
      new Promise((resolve, reject) => {
        // Not before there is something to draw: other formats need none of them.
        while (busy.size < threads) start();
        next += 1;
        waiting.set(next, { resolve, reject });
        const [worker] = [...busy].reduce((least, each) => (each[1] < least[1] ? each : least));
        busy.set(worker, (busy.get(worker) ?? 0) + 1);
        worker.postMessage({ id: next, task });
      }),
    close: async () => {
      await Promise.all([...busy.keys()].map((worker) => worker.terminate()));
    },
  };
}
