/** Turns of the event loop in which a message that has arrived is unpacked and handed on. */
const TURNS = 2;

/**
 * Waits until what has arrived behind a request was read too, so that the word to give it up is heard before the work
 * and not after it. A worker gets its messages unpacked, one for each turn.
 */
export async function mailRead(): Promise<void> {
  for (let turn = 0; turn < TURNS; turn += 1) await nextTurn();
}

function nextTurn(): Promise<void> {
  return new Promise((resolve) => {
    if (typeof setImmediate === 'function') setImmediate(resolve);
    else setTimeout(resolve, 0);
  });
}
