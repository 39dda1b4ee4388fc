import type { FileTree, LogNode } from '../../../../grammar/index.js';
import { compareOne, type SessionComparison } from '../history/compare.js';
import { historyOf } from '../history/history.js';
import { doneWords, signed, workWords } from '../history/words.js';
import type { Client } from '../model.js';
import type { EngineSession } from '../session.js';
import { fromKg } from '../units.js';
import type { Hover } from './hover.js';
import { escapeMarkdown, touches } from './text.js';
import { cellText } from './words.js';

/** Planned, done and the difference, for a line or the header of a log. Null elsewhere. */
export function logHover(session: EngineSession, file: string, tree: FileTree, offset: number): Hover | null {
  const log = tree.sections.find(
    (section): section is LogNode => section.kind === 'log' && touches(section.span, offset),
  );
  if (!log) return null;
  const line = log.lines.find(({ span }) => touches(span, offset));
  const onHeader = touches(log.headerSpan, offset);
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
        : sessionText(plan.client, compared);
    return text === null ? [] : [text];
  });
  if (parts.length === 0) return null;
  return { span: line && !onHeader ? line.span : log.headerSpan, markdown: parts.join('\n\n') };
}

function movementText(client: Client, { movements }: SessionComparison, start: number): string | null {
  const found = movements.find(({ done }) => done.place.span.start === start);
  if (!found) return null;
  const { done, planned, doneWork } = found;
  const facts = [
    `Planned: ${done.cell ? cellText(done.cell) : 'not in the plan'}`,
    `Done: ${doneWords(done, client.units)}`,
    ...(done.cell
      ? [
          `Difference: ${signed(doneWork.sets - planned.sets)} sets, ${signed(doneWork.reps - planned.reps)} reps, ${signed(
            fromKg(doneWork.volumeLoadKg - planned.volumeLoadKg, client.units),
          )} ${client.units} of volume-load`,
        ]
      : []),
  ];
  return list(`**${escapeMarkdown(client.name)}**: ${escapeMarkdown(done.name)}`, facts);
}

function sessionText(client: Client, compared: SessionComparison): string {
  const { session, planned, done } = compared;
  const title = `**${escapeMarkdown(client.name)}**`;
  if (!session)
    return list(title, ['No planned session of this day.', `Done: ${workWords(done, client.units)}`]);
  const where = `${session.program.name} · ${session.block.name}, week ${session.week}, ${session.day.name}`;
  return list(`${title}: ${escapeMarkdown(where)}`, [
    `Planned: ${workWords(planned, client.units)}`,
    `Done: ${workWords(done, client.units)}`,
  ]);
}

function list(title: string, facts: readonly string[]): string {
  return `${title}\n\n${facts.map((fact) => `- ${escapeMarkdown(fact)}`).join('\n')}`;
}
