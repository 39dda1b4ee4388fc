import type { Span } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import { logsOf } from '../history/done.js';
import type { Client, LogEntry, Session } from '../model.js';
import type { EngineSession } from '../session.js';
import { formatMass } from '../units.js';
import { type CompletionItem, type Cursor, item } from './completionParts.js';
import { doseText, loadText } from './words.js';

/** So many clients, and so many of the newest logs of each, are looked through for the last loads. */
const MOST_CLIENTS = 3;
const MOST_LOGS = 20;

/**
 * All movements, each with the last loads that were lifted in the detail: of the followers of the program that is
 * being written, or of the clients of the log.
 */
export function movementItems(cursor: Cursor, replace: Span, after: string): CompletionItem[] {
  const { session } = cursor;
  const { movements } = session.world();
  const last = lastLoads(session, clientsOf(cursor));
  return [...movements.values()]
    .map((movement) => {
      const loads = last.get(movement.key) ?? [];
      const detail = loads.length === 0 ? movement.pattern : loads.join('; ');
      return item(movement.name, 'movement', detail, replace, movement.name + after);
    })
    .sort((a, b) => (a.label < b.label ? -1 : a.label > b.label ? 1 : 0));
}

function clientsOf(cursor: Cursor): Client[] {
  const { session, context } = cursor;
  const { clients } = session.world();
  const keyOf = (name: string): string => name.trim().replace(/\s+/g, ' ').toLowerCase();
  const keys =
    context.section === 'log'
      ? context.opener.slice('log'.length).split(',').map(keyOf)
      : session.followers(keyOf(context.names.program ?? ''));
  return keys.flatMap((key) => clients.get(key) ?? []).slice(0, MOST_CLIENTS);
}

/** The newest load of each movement by client, as `Heron 45 kg on 2026-12-08`. */
export function lastLoads(session: EngineSession, clients: readonly Client[]): Map<string, string[]> {
  const found = new Map<string, string[]>();
  for (const client of clients) {
    const own = new Map<string, string>();
    const logs = logsOf(session.world(), client.key).slice(-MOST_LOGS).reverse();
    const plan = logs.length === 0 ? undefined : session.plan(client.key);
    for (const log of logs) addLog(own, log, client, plan?.sessions ?? []);
    for (const max of [...client.maxes].sort((a, b) => (a.date < b.date ? 1 : -1))) {
      if (own.has(max.movement) || max.bodyweight) continue;
      const { loadKg } = max;
      own.set(max.movement, say`${client.name} ${massOf(loadKg, client)} x${max.reps} on ${max.date}`);
    }
    for (const [movement, load] of own) found.set(movement, [...(found.get(movement) ?? []), load]);
  }
  return found;
}

function massOf(kg: number, client: Client): string {
  return formatMass(kg, client.units);
}

function addLog(own: Map<string, string>, log: LogEntry, client: Client, sessions: readonly Session[]): void {
  const planned = sessions.filter(
    ({ date, day }) => date === log.date && (log.day === null || day.key === log.day),
  );
  const asPlanned = log.node.lines.some((line) => line.kind === 'as-planned');
  const written = new Set<string>();
  for (const line of log.node.lines) {
    if (line.kind !== 'done') continue;
    written.add(line.movement.key);
    if (line.insteadOf) written.add(line.insteadOf.movement.key);
    const load = line.groups.find((group) => group.load !== null)?.load;
    if (own.has(line.movement.key) || !load) continue;
    const mass = load.kind === 'load' || load.kind === 'pack' ? load.mass.kg : null;
    if (mass !== null) own.set(line.movement.key, say`${client.name} ${massOf(mass, client)} on ${log.date}`);
  }
  if (!asPlanned) return;
  for (const cell of planned.flatMap((session) => session.cells)) {
    const key = cell.movement?.key;
    const group = cell.groups[0];
    if (key === undefined || !group || own.has(key) || written.has(cell.row.movement)) continue;
    const load = loadText(group, client.units);
    own.set(key, say`${client.name} ${load === '' ? doseText(group) : load} on ${log.date}`);
  }
}
