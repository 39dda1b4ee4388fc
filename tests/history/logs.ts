import { normaliseName } from '../../grammar/index.js';
import { type History, historyOf } from '../../server/src/engine/history/history.js';
import type { ClientPlan, World } from '../../server/src/engine/model.js';
import { createSession, type EngineSession } from '../../server/src/engine/session.js';
import { type Setting, workspace } from '../engine/studio.js';

export interface Logged {
  readonly session: EngineSession;
  readonly plan: ClientPlan;
  readonly world: World;
  readonly history: History;
  readonly text: string;
}

/** A workspace of Heron and one program (see `workspace`), with logs. A mistake in the notation fails the test at once. */
export function logged(rows: string, logs: string, setting: Setting = {}): Logged {
  return openLogged(`${workspace(rows, setting)}\n${logs}\n`);
}

export function openLogged(text: string, client = 'Heron'): Logged {
  const session = createSession({ today: null });
  session.setFile('a.stave', text);
  const problems = session.tree('a.stave')?.problems ?? [];
  if (problems.length > 0) throw new Error(problems.map(({ message }) => message).join('\n'));
  const plan = session.plan(normaliseName(client));
  if (!plan) throw new Error(`There is no client ${client}.`);
  const world = session.world();
  return { session, plan, world, history: historyOf(plan, world), text };
}
