/** Compressing as Node does it, as far as the writer of PDF asks for it. */
import { Buffer } from 'buffer/';
import { zlibSync } from 'fflate';

export function deflateSync(bytes: Uint8Array): Uint8Array {
  return Buffer.from(zlibSync(bytes));
}
