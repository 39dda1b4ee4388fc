/** Small workspaces from which the values of the reference are worked out: written in the notation, resolved, read back. */
import type { ResolvedCell, Session } from '../src/engine/model.js';
import { RULES } from '../src/engine/rules/index.js';
import { createSession, type EngineSession } from '../src/engine/session.js';

export interface Asked {
  readonly days: Readonly<Record<string, readonly string[]>>;
  readonly on?: string;
  readonly weeks?: number;
  readonly client?: string;
  readonly aim?: string;
}

/** A client with true singles of 100 kg and plates for every half kilogram, so that a share is seen as it is. */
export function open({ days, on = 'mon', weeks = 1, client = '', aim = '' }: Asked): EngineSession {
  const session = createSession();
  const rows = Object.entries(days).map(([day, lines]) => [`day ${day}`, ...lines].join('\n  '));
  const lifts = ['back squat', 'deadlift', 'overhead press', 'bench press'];
  session.setFile(
    'protocol',
    `kit Gym
  bar: 15kg
  plates: 0.25kg x2, 0.5kg x2, 1kg x4, 2.5kg x2, 5kg x2, 10kg x2, 20kg x6

client Heron
  trains at: Gym
  ready: heavy all 2026-01-01
  ${client}
  ${lifts.map((lift) => `max: ${lift}, 100kg x1, 2026-11-23`).join('\n  ')}
  follows: Winter, from 2026-12-07, on ${on}

program Winter
  ${aim === '' ? '' : `aim: ${aim}`}

block Keel, ${weeks} weeks
${rows.join('\n')}
`,
  );
  return session;
}

export function sessionsOf(asked: Asked): readonly Session[] {
  return open(asked).plan('heron')?.sessions ?? [];
}

export function cellOf(row: string): ResolvedCell | undefined {
  return sessionsOf({ days: { One: [row] } })[0]?.cells[0];
}

export function found(asked: Asked, code: string): boolean {
  return open(asked)
    .allFindings()
    .some((finding) => finding.code === code);
}

/** What a rule has by default for one of its numbers. */
export function setting(code: string, key: string): number {
  const rule = RULES.find((known) => known.code === code);
  return rule?.options?.find((option) => option.key === key)?.default ?? Number.NaN;
}
