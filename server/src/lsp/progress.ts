import type { Connection } from 'vscode-languageserver';

/** Work that is done sooner needs no word. */
const soonMilliseconds = 400;

/** Tells the client that something takes its time, when it does. Never rejects, and never keeps anybody waiting. */
export async function progressWhile(
  connection: Connection,
  title: string,
  work: Promise<unknown>,
): Promise<void> {
  const late = Symbol('late');
  const first = await Promise.race([
    work.catch(() => undefined),
    new Promise((resolve) => setTimeout(() => resolve(late), soonMilliseconds)),
  ]);
  if (first !== late) return;
  try {
    const progress = await connection.window.createWorkDoneProgress();
    progress.begin(title);
    await work.catch(() => undefined);
    progress.done();
  } catch {
    // A client that has no place for it goes without.
  }
}
