import fs from 'node:fs';
import path from 'node:path';
import type { ClientPlan } from '../../server/src/engine/model.js';
import { createSession, type EngineSession } from '../../server/src/engine/session.js';
import { root } from '../structure/repository.js';

/** A session over all files of a folder of the repository, on 25 November 2026. */
export function sessionOf(folder: string): EngineSession {
  const session = createSession({ today: '2026-11-25' });
  const read = (at: string): void => {
    for (const entry of fs.readdirSync(at, { withFileTypes: true })) {
      const file = path.join(at, entry.name);
      if (entry.isDirectory()) read(file);
      else if (file.endsWith('.stave'))
        session.setFile(path.relative(root, file), fs.readFileSync(file, 'utf8'));
    }
  };
  read(path.join(root, folder));
  return session;
}

/** A session over one text. */
export function sessionWith(text: string): EngineSession {
  const session = createSession({ today: '2026-11-25' });
  session.setFile('one.stave', text);
  return session;
}

export function planIn(session: EngineSession, client: string): ClientPlan {
  const plan = session.plan(client);
  if (!plan) throw new Error(`there is no client ${client}`);
  return plan;
}

/** Names that a coach could type, by mistake or in malice; all of them are names that the notation takes. */
export const HOSTILE_NAMES = [
  '<script>alert(1)</script>',
  '../../etc/passwd',
  'x'.repeat(500),
  'Robin 🦆',
  'طائر الشاطئ',
  '=HYPERLINK("x")'.replaceAll('"', "'"),
  '@SUM(A1)',
  '-rf',
  'CON',
  '[link](x) **bold**',
];

/** A whole workspace in which the client, the day and the movement carry a name. */
export function hostileWorkspace(name: string): string {
  return `kit ${name}
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4

movement ${name}
  pattern: squat
  with: barbell

client ${name}
  trains at: ${name}
  max: ${name}, 47.5kg x5 r2, 2026-11-23
  follows: ${name}, from 2026-12-07, on mon

program ${name}
block ${name}, 2 weeks, load
day ${name}
  ${name}: 3x6 r2
`;
}
