/** `stave explain FILE:LINE:COLUMN`: why a load is what it is, step by step. */
import { capitalised } from '../engine/print/words.js';
import { type ExplainedStep, type Explanation, explainAt } from '../engine/views/explain/explain.js';
import type { SourceLine } from '../engine/views/explain/sourceLine.js';
import { planOf } from './clients.js';
import { quoted, readWorkspace } from './files.js';
import { EXIT, type Io, Misuse } from './io.js';
import { coloursOf, visible, wrapText } from './text.js';

export interface ExplainOptions {
  /** Name of the client; null: the first who does the row. */
  readonly for: string | null;
  /** A day on which she does it; null: the first for which the cell stands. */
  readonly date: string | null;
  readonly in: string | null;
}

/** A place as compilers and editors write it; null for anything else. Without a column: the row's first week. */
export function readPlace(text: string): { file: string; line: number; column: number | null } | null {
  const found = /^(.+?):(\d{1,9})(?::(\d{1,9}))?$/.exec(text);
  if (!found) return null;
  const [, file, line, column] = found;
  return { file: file as string, line: Number(line), column: column === undefined ? null : Number(column) };
}

export async function explainCell(
  place: NonNullable<ReturnType<typeof readPlace>>,
  options: ExplainOptions,
  io: Io,
): Promise<number> {
  const workspace = await readWorkspace([place.file], io, { lookIn: options.in });
  const file = workspace.shown[0];
  if (file === undefined) throw new Misuse(`${quoted(place.file)} holds nothing to explain.`);
  const client = options.for === null ? null : planOf(workspace, options.for).client.key;
  const positions = workspace.positions(file);
  const start = positions.startOf(place.line);
  const text = positions.line(place.line);
  const within = place.column === null ? text.length - text.trimStart().length : place.column - 1;
  if (start === null || within > text.length)
    throw new Misuse(`${quoted(place.file)} has no line ${place.line} of that length.`);
  const wish = { client, date: options.date };
  const explained = explainAt(workspace.session, file, start + within, wish);
  if (!explained.ok) throw new Misuse(`${explained.heading}. ${explained.text}`);
  const { explanation } = explained;
  if (client !== null && explanation.client.key !== client)
    throw new Misuse(`${options.for} does not do this row. ${namesOf(explanation)}`);
  if (options.date !== null && explanation.date !== options.date)
    throw new Misuse(
      `${explanation.client.name} does not do this row on ${options.date}. She does on ${explanation.days.map(({ date }) => date).join(', ')}.`,
    );
  io.out(explanationText(explanation, io));
  return EXIT.clean;
}

function namesOf({ clients }: Explanation): string {
  return `There ${clients.length === 1 ? 'is' : 'are'}: ${clients.map(({ name }) => name).join(', ')}.`;
}

function explanationText(explanation: Explanation, io: Io): string {
  const colours = coloursOf(io);
  const { movement, client, program, block, week, deload, day, date, row, groups } = explanation;
  const where = [program, block, `week ${week}${deload ? ' (deload)' : ''}`, day, date];
  const parts = [
    colours.bold(visible(`${capitalised(movement)} for ${client.name}`)),
    visible(where.join(', ')),
    lineText(row, ''),
    ...groups.flatMap(({ heading, facts, steps }) => [
      '',
      colours.bold(visible(heading)),
      ...(facts.length > 0 ? [visible(facts.join(', '))] : []),
      ...steps.map((step, index) => `\n${stepText(step, index + 1, io)}`),
    ]),
  ];
  return `${parts.join('\n')}\n`;
}

function stepText({ heading, text, value, lines, source }: ExplainedStep, number: number, io: Io): string {
  const colours = coloursOf(io);
  const head = `${number}. ${heading}${value === null ? '' : `: ${value}`}`;
  return [
    colours.bold(visible(head)),
    ...(text === '' ? [] : [wrapText(visible(text), io.width, '   ')]),
    ...lines.map((line) => lineText(line, '   ')),
    ...(source === null ? [] : [wrapText(visible(`Source: ${source}`), io.width, '   ')]),
  ].join('\n');
}

/** Not wrapped: what stands in a file is to be found again as it stands. */
function lineText({ place, line, text }: SourceLine, indent: string): string {
  return `${indent}${visible(`${place.file}:${line}: ${text}`)}`;
}
