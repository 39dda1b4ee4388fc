import type { Client, ClientPlan, Program, ResolvedCell, World } from './model.js';

/** Who follows what, and in which files that stands. */

/** How many clients follow each program. */
export function followerCounts(clients: Iterable<Client>): Map<string, number> {
  const counts = new Map<string, number>();
  for (const client of clients) {
    for (const key of new Set(client.follows.map(({ program }) => program)))
      counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  return counts;
}

/** Clients of whom something stands in a file, in the order in which they are written. */
export function clientsByFile(world: World): Map<string, Client[]> {
  const found = new Map<string, Client[]>();
  for (const client of world.clients.values()) {
    const files = new Set(client.nodes.map(({ file }) => file));
    for (const { place } of client.allows) files.add(place.file);
    for (const { program: key, place } of client.follows) {
      files.add(place.file);
      const program = world.programs.get(key);
      for (const file of program ? filesOf(program) : []) files.add(file);
    }
    for (const file of files) {
      const own = found.get(file);
      if (own) own.push(client);
      else found.set(file, [client]);
    }
  }
  return found;
}

/** All cells of a plan by the file in which their row is written. */
export function cellsByFile(plan: ClientPlan): Map<string, ResolvedCell[]> {
  const found = new Map<string, ResolvedCell[]>();
  for (const session of plan.sessions) {
    for (const cell of session.cells) {
      const list = found.get(cell.row.place.file);
      if (list) list.push(cell);
      else found.set(cell.row.place.file, [cell]);
    }
  }
  return found;
}

const filesByProgram = new WeakMap<Program, ReadonlySet<string>>();

/** Files in which lines of a program stand: its own, and those that its blocks are like. */
function filesOf(program: Program): ReadonlySet<string> {
  let files = filesByProgram.get(program);
  if (!files) {
    const found = new Set([program.place.file]);
    for (const block of program.blocks) {
      for (const day of block.days) {
        found.add(day.place.file);
        for (const allow of day.allows) found.add(allow.place.file);
        for (const row of day.rows) {
          found.add(row.place.file);
          for (const allow of row.allows) found.add(allow.place.file);
        }
      }
    }
    files = found;
    filesByProgram.set(program, files);
  }
  return files;
}
