/** Finding the client that was asked for. */
import { normaliseName } from '../../../grammar/index.js';
import type { ClientPlan } from '../engine/model.js';
import { nearestName } from '../engine/rules/shared/nearest.js';
import { quoted, type Workspace } from './files.js';
import { Misuse } from './io.js';

/** The plan of a client by name. Throws `Misuse` that offers the name that was probably meant. */
export function planOf(workspace: Workspace, name: string): ClientPlan {
  const key = normaliseName(name);
  const plan = workspace.session.plan(key);
  if (plan) return plan;
  const clients = [...workspace.session.world().clients.values()].sort((a, b) => (a.key < b.key ? -1 : 1));
  if (clients.length === 0) throw new Misuse('No client is written in these files.');
  const near = nearestName(key, clients);
  const hint = near
    ? `Did you mean ${quoted(near.name)}?`
    : `There ${clients.length === 1 ? 'is' : 'are'}: ${clients
        .slice(0, 12)
        .map((client) => client.name)
        .join(', ')}${clients.length > 12 ? ', …' : ''}.`;
  throw new Misuse(`No client is called ${quoted(name)}. ${hint}`);
}
