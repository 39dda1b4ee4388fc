import type { FileTree, Span } from '../../../../grammar/index.js';
import { later, said, say } from '../../../../grammar/say.js';
import type { Finding } from '../model.js';
import { looksAtPlans } from '../ruleForm.js';
import { RULES } from '../rules/index.js';
import type { EngineSession } from '../session.js';
import type { FileEdit } from './navigation.js';
import { rowsOf } from './rows.js';
import { indentAt, lineBreakOf, lineSpanAt, meets, sectionAt } from './text.js';

export interface Action {
  readonly title: string;
  /** `fix` puts the text right; `allow` keeps it and says why. */
  readonly kind: 'fix' | 'allow';
  /** Cannot change what the program asks for. */
  readonly safe: boolean;
  readonly finding: Finding;
  readonly edits: readonly FileEdit[];
  /** What to select in the edited file once the edits are made: the words to replace. */
  readonly select: { readonly file: string; readonly span: Span } | null;
}

/** Stands in a new `allow` line until the coach writes her own words; an editor selects it. */
const REASON = 'why';

const PLACES: Readonly<Record<Spot['where'], string>> = {
  row: later('this row'),
  day: later('this day'),
  block: later('this block'),
  program: later('this program'),
  client: later('this client'),
  group: later('this group'),
  log: later('this log'),
};

/** What can be done about the findings that touch a span: their own repairs first, then allowing them with a reason. */
export function quickFixes(session: EngineSession, file: string, span: Span): Action[] {
  const tree = session.tree(file)?.value;
  const text = session.text(file);
  if (!tree || text === undefined) return [];
  const findings = session.findings(file).filter((finding) => meets(finding.place.span, span));
  const fixes = findings.flatMap(ownFixes);
  const allows = findings.flatMap((finding) => allowActions(text, tree, file, finding));
  return [...fixes, ...allows];
}

/** Every safe repair of a file that touches no other one, for `fix all`. */
export function safeFixes(session: EngineSession, file: string): FileEdit[] {
  const edits: FileEdit[] = [];
  for (const { fixes } of session.findings(file)) {
    const fix = fixes.find((entry) => entry.safe && entry.edits.every((edit) => edit.file === file));
    if (!fix || fix.edits.some((edit) => edits.some((other) => meets(edit.span, other.span)))) continue;
    edits.push(...fix.edits);
  }
  return edits;
}

function ownFixes(finding: Finding): Action[] {
  return finding.fixes.map((fix) => ({
    title: fix.title,
    kind: 'fix',
    safe: fix.safe,
    finding,
    edits: fix.edits,
    select: null,
  }));
}

/** Findings about names cannot be allowed: without the name there is nothing that could be meant. */
function canBeAllowed(code: string, inLog: boolean): boolean {
  const rule = RULES.find((known) => known.code === code);
  return code !== 'unused-allow' && rule !== undefined && (inLog ? rule.inLogs === true : looksAtPlans(rule));
}

function allowActions(text: string, tree: FileTree, file: string, finding: Finding): Action[] {
  const inLog = sectionAt(tree, finding.place.span.start)?.kind === 'log';
  if (!canBeAllowed(finding.code, inLog)) return [];
  const spot = allowSpot(text, tree, finding.place.span.start);
  if (!spot) return [];
  const before = `${lineBreakOf(text)}${spot.indent}allow: ${finding.code} "`;
  const start = spot.at + before.length;
  return [
    {
      title: say`Allow ${finding.code} for ${said(PLACES[spot.where])}, with a reason`,
      kind: 'allow',
      safe: false,
      finding,
      edits: [{ file, span: { start: spot.at, end: spot.at }, newText: `${before}${REASON}"` }],
      select: { file, span: { start, end: start + REASON.length } },
    },
  ];
}

interface Spot {
  readonly at: number;
  readonly indent: string;
  readonly where: 'row' | 'day' | 'block' | 'program' | 'client' | 'group' | 'log';
}

/** Where the `allow` line for something at an offset belongs: under its row, else under its innermost header. */
function allowSpot(text: string, tree: FileTree, offset: number): Spot | null {
  const placed = rowsOf(tree).find(({ row }) => row.span.start <= offset && offset <= row.span.end);
  if (placed) {
    const cells = placed.row.cells;
    const last = cells[cells.length - 1]?.span.end ?? placed.row.nameSpan.end;
    return under(text, placed.row.span.start, last, 'row');
  }
  const section = sectionAt(tree, offset);
  if (!section || offset > section.span.end) return null;
  if (section.kind === 'client' || section.kind === 'group' || section.kind === 'log') {
    const inLine = offset > section.headerSpan.end;
    if (!inLine) return under(text, section.headerSpan.start, section.headerSpan.end, section.kind);
    const { end } = lineSpanAt(text, offset);
    return { at: end, indent: indentAt(text, offset), where: section.kind };
  }
  if (section.kind !== 'program') return null;
  const block = section.blocks.find(({ span }) => span.start <= offset && offset <= span.end);
  const day = block?.days.find(({ span }) => span.start <= offset && offset <= span.end);
  const inner = day ?? block ?? section;
  return under(text, inner.headerSpan.start, inner.headerSpan.end, inner.kind);
}

function under(text: string, start: number, end: number, where: Spot['where']): Spot {
  return { at: lineSpanAt(text, end).end, indent: `${indentAt(text, start)}  `, where };
}
