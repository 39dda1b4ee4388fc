import type { Finding, Severity } from '../../server/src/engine/model.js';
import type { Rule } from '../../server/src/engine/ruleForm.js';
import { createSession, type EngineSession } from '../../server/src/engine/session.js';
import { RULES } from '../../server/src/engine/rules/index.js';

/** The file that the tests write. */
export const FILE = 'program.stave';

export function sessionOf(text: string, severities: Record<string, Severity> = {}, today: string | null = null): EngineSession {
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
  return check(text, RULES.filter((rule) => rule.code === code)).filter((finding) => finding.code === code);
}

/** What the notation itself complains of. */
export function syntaxProblems(text: string): readonly string[] {
  return (sessionOf(text).tree(FILE)?.problems ?? []).map((problem) => problem.message);
}
