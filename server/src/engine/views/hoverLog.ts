import type { FileTree, LogNode } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import { compareOne, type SessionComparison } from '../history/compare.js';
import { logsOf } from '../history/done.js';
import { historyOf } from '../history/history.js';
import { doneWords, insteadWords, signed, workWords } from '../history/words.js';
import { loggedLoads } from '../history/workload.js';
import type { Client, LogEntry } from '../model.js';
import type { EngineSession } from '../session.js';
import { fromKg } from '../units.js';
import type { Hover } from './hover.js';
import { loadFacts } from './hoverVolume.js';
import { escapeMarkdown, touches } from './text.js';
import { cellText } from './words.js';

/** Planned, done and the difference, for a line or the header of a log. Null elsewhere. */
export function logHover(session: EngineSession, file: string, tree: FileTree, offset: number): Hover | null {
  const log = tree.sections.find(
    (section): section is LogNode => section.kind === 'log' && touches(section.span, offset),
  );
  if (!log) return null;
  const line = log.lines.find(({ span }) => touches(span, offset));
  const onHeader = touches(log.headerSpan, offset) || line?.kind === 'session';
  if (!onHeader && line?.kind !== 'done' && line?.kind !== 'as-planned') return null;
  const parts = log.clients.flatMap(({ key }) => {
    const plan = session.plan(key);
    const done =
      plan &&
      historyOf(plan, session.world()).done.find(
        ({ entry }) => entry.node === log && entry.place.file === file,
      );
    if (!plan || !done) return [];
    const compared = compareOne(done.session, done, null);
    const text =
      line?.kind === 'done' && !onHeader
        ? movementText(plan.client, compared, line.span.start)
        : sessionText(plan.client, compared, loadOf(logsOf(session.world(), key), done.entry));
    return text === null ? [] : [text];
  });
  if (parts.length === 0) return null;
  return {
    span: line && touches(line.span, offset) ? line.span : log.headerSpan,
    markdown: parts.join('\n\n'),
  };
}

function movementText(client: Client, { movements }: SessionComparison, start: number): string | null {
  const found = movements.find(({ done }) => done.place.span.start === start);
  if (!found) return null;
  const { done, planned, doneWork } = found;
  const instead = insteadWords(done);
  const facts = [
    ...(instead === '' ? [] : [say`Swapped that day: ${instead}`]),
    say`Planned: ${done.cell ? cellText(done.cell) : say('not in the plan')}`,
    say`Done: ${doneWords(done, client.units)}`,
    ...(done.cell
      ? [
          say`Difference: ${signed(doneWork.sets - planned.sets)} sets, ${signed(doneWork.reps - planned.reps)} reps, ${signed(
            fromKg(doneWork.volumeLoadKg - planned.volumeLoadKg, client.units),
          )} ${client.units} of volume-load`,
        ]
      : []),
  ];
  return list(`**${escapeMarkdown(client.name)}**: ${escapeMarkdown(done.name)}`, facts);
}

/** What the session's load says, where its effort and minutes are written. */
function loadOf(entries: readonly LogEntry[], entry: LogEntry): readonly string[] {
  const logged = loggedLoads(entries);
  const own = logged.find((each) => each.entry === entry);
  return own ? loadFacts(logged, own) : [];
}

function sessionText(client: Client, compared: SessionComparison, load: readonly string[]): string {
  const { session, planned, done } = compared;
  const title = `**${escapeMarkdown(client.name)}**`;
  if (!session)
    return list(title, [
      say('No planned session of this day.'),
      say`Done: ${workWords(done, client.units)}`,
      ...load,
    ]);
  const where = say`${session.program.name} · ${session.block.name}, week ${session.week}, ${session.day.name}`;
  return list(`${title}: ${escapeMarkdown(where)}`, [
    say`Planned: ${workWords(planned, client.units)}`,
    say`Done: ${workWords(done, client.units)}`,
    ...load,
  ]);
}

function list(title: string, facts: readonly string[]): string {
  return `${title}\n\n${facts.map((fact) => `- ${escapeMarkdown(fact)}`).join('\n')}`;
}
