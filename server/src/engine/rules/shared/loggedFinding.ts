import type { LoggedLoad } from '../../history/workload.js';
import type { RawFinding } from '../../ruleForm.js';

/** A finding on the `session:` line of a log, which an `allow` line in that log or in its client silences. */
export function onLog(
  { entry, place }: LoggedLoad,
  said: Pick<RawFinding, 'headline' | 'detail' | 'advice'> &
    Partial<Pick<RawFinding, 'related' | 'severity' | 'fixes'>>,
): RawFinding {
  return {
    ...said,
    place,
    client: entry.client,
    cell: null,
    log: entry.node,
    related: said.related ?? [],
    fixes: said.fixes ?? [],
  };
}

/** The logs of a week for the examples: a date and the `session:` line of each. */
export function logsOfHeron(sessions: readonly (readonly [string, string])[]): string {
  return sessions
    .map(([date, session]) => `log Heron, ${date}\n  back squat: 40kg 5\n  session: ${session}`)
    .join('\n\n');
}
