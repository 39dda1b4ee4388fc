/** Draws PDFs in a thread of its own: a task comes in, the bytes go out. */

import { parentPort, workerData } from 'node:worker_threads';
import type { DrawTask } from '../pdf/task.js';
import type { Spoken } from './language.js';
import { drawHere } from './pdf.js';

parentPort?.on('message', ({ id, task }: { id: number; task: DrawTask }) => {
  drawHere(task, workerData as Spoken).then(
    (drawn) => parentPort?.postMessage({ id, drawn }, [drawn.bytes.buffer as ArrayBuffer]),
    (error: unknown) =>
      parentPort?.postMessage({
        id,
        failed: error instanceof Error ? (error.stack ?? error.message) : String(error),
      }),
  );
});
