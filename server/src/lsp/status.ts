import { isThere, type Located } from './located.js';
import type { Status, StatusClient } from './messages.js';
import type { Scope } from './workspace.js';

/** The clients of a folder, and whose loads a file shows. Without a file nothing is said about who follows it. */
export function statusOf({ session, settings }: Scope, file: string | undefined): Status {
  const world = session.world();
  const clients = [...world.clients.values()]
    .map(({ key, name, follows }): StatusClient => {
      const keys = new Set(follows.map(({ program }) => program));
      const programs = [...keys].map((program) => world.programs.get(program)).filter(isThere);
      return {
        key,
        name,
        follows: programs.map((program) => program.name).sort(compare),
        inFile: programs.some(({ place }) => place.file === file),
      };
    })
    .sort((a, b) => Number(b.inFile) - Number(a.inFile) || compare(a.name, b.name));
  const wanted = settings.client;
  const chosen = wanted !== null && clients.some(({ key }) => key === wanted);
  // Until the coach chooses, a file shows the first client who follows what it writes.
  const shown = chosen ? wanted : (clients[0]?.key ?? null);
  return { clients, shown, chosen };
}

/** Key of the client whose loads a file shows; null when there is nobody. */
export function shownClient({ scope, file }: Located): string | null {
  return statusOf(scope, file).shown;
}

function compare(a: string, b: string): number {
  return a < b ? -1 : Number(a > b);
}
