import type { Finding, FindingFix, Severity } from '../../server/src/engine/model.js';
import type { Rule } from '../../server/src/engine/ruleForm.js';
import { RULES } from '../../server/src/engine/rules/index.js';
import { createSession, type EngineSession } from '../../server/src/engine/session.js';

/** The file that the tests write. */
export const FILE = 'program.stave';

export function sessionOf(
  text: string,
  severities: Record<string, Severity> = {},
  today: string | null = null,
): EngineSession {
  const session = createSession({ today, severities });
  session.setFile(FILE, text);
  return session;
}

/** All findings of a workspace of one file. Rules that are off by default are switched on where they are asked for. */
export function check(text: string, asked: readonly Rule[] = []): readonly Finding[] {
  const severities = Object.fromEntries(
    asked.filter((rule) => rule.severity === 'off').map((rule) => [rule.code, 'info' as const]),
  );
  return sessionOf(text, severities).allFindings();
}

/** Findings of one code. */
export function found(text: string, code: string): readonly Finding[] {
  return check(
    text,
    RULES.filter((rule) => rule.code === code),
  ).filter((finding) => finding.code === code);
}

/** What the notation itself complains of. */
export function syntaxProblems(text: string): readonly string[] {
  return (sessionOf(text).tree(FILE)?.problems ?? []).map((problem) => problem.message);
}

/** The text after a fix was taken. Edits do not overlap; the last goes first so that places stay right. */
export function applyFix(text: string, fix: FindingFix): string {
  return [...fix.edits]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((now, edit) => now.slice(0, edit.span.start) + edit.newText + now.slice(edit.span.end), text);
}

/** The characters that a finding stands on. */
export function at(text: string, finding: Finding): string {
  return text.slice(finding.place.span.start, finding.place.span.end);
}

/** The kit of the worked example. */
export const KIT = `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4
  dumbbells: 2kg to 20kg by 2kg
`;

export interface Made {
  readonly client?: string;
  readonly name?: string;
  readonly others?: string;
  readonly block?: string;
  readonly row: string;
  readonly on?: string;
  readonly kit?: string;
}

/** A workspace around one row: a client who is signed off for heavy squats with an e1RM of 57 kg (Brzycki). */
export function around({
  client,
  name = 'Heron',
  others = '',
  block = 'Keel, 4 weeks',
  row,
  on = 'mon',
  kit = KIT,
}: Made): string {
  const lines = client ?? 'ready: heavy all 2026-06-01\n  max: back squat, 47.5kg x5 r2, 2026-11-23';
  return `${kit}
client ${name}
  mass: 68kg, 2026-11-01
  trains at: Boathouse
  ${lines}
  follows: Winter, from 2026-12-07, on ${on}
${others}
program Winter

block ${block}
day Lower
  ${row}
`;
}
