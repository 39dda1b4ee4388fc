import { type BlockNode, normaliseName, type ProgramNode } from '../../../../../grammar/index.js';
import { say } from '../../../../../grammar/say.js';
import type { FileEdit } from '../navigation.js';
import { lineBreakOf, lineSpanAt, touches } from '../text.js';
import { type RefactorContext, type Refactoring, type RefactorResult, refuse, tried } from './refactoring.js';

/**
 * Moves the days of a block into a program that nobody follows, and has the block be `like` it, so that other programs
 * can be like it too. Texts and `allow` lines of the block stay where they are.
 */
export function extractTemplate(context: RefactorContext): Refactoring[] {
  const { session, file, offset } = context;
  for (const program of session.tree(file)?.value.sections ?? []) {
    if (program.kind !== 'program') continue;
    const block = program.blocks.find(({ headerSpan }) => touches(headerSpan, offset));
    if (!block || block.like || block.days.length === 0) continue;
    const name = freeName(context, program);
    return [
      {
        title: say`Make block ${block.name.text} a template in program ${name}`,
        kind: 'refactor.extract',
        build: () => extract(context, block, name),
      },
    ];
  }
  return [];
}

function freeName({ session }: RefactorContext, program: ProgramNode): string {
  const { programs } = session.world();
  const base = say`${program.name.text} templates`;
  for (let turn = 1; ; turn++) {
    const name = turn === 1 ? base : `${base} ${turn}`;
    if (!programs.has(normaliseName(name))) return name;
  }
}

function extract({ session, file }: RefactorContext, block: BlockNode, name: string): RefactorResult {
  const text = session.text(file) ?? '';
  const firstDay = block.days[0];
  if (!firstDay || block.damaged.length > 0)
    return refuse(say('A mistake in this block has to be put right first.'));
  const br = lineBreakOf(text);
  const bodyStart = lineSpanAt(text, firstDay.headerSpan.start).start;
  const bodyEnd = lineSpanAt(text, block.span.end).end;
  const header = text.slice(block.headerSpan.start, block.headerSpan.end).trimEnd();
  const effortLine = block.effort ? lineSpanAt(text, block.effort.span.start) : null;
  const effort = effortLine ? `${text.slice(effortLine.start, effortLine.end)}${br}` : '';
  const edits: FileEdit[] = [
    {
      file,
      span: { start: block.headerSpan.start, end: block.headerSpan.start + header.length },
      newText: `block ${block.name.text}, like ${name} / ${block.name.text}`,
    },
    { file, span: { start: bodyStart - br.length, end: bodyEnd }, newText: '' },
    {
      file,
      span: { start: text.length, end: text.length },
      newText: `${text.endsWith('\n') || text.endsWith('\r') ? '' : br}${br}program ${name}${br}${br}${header}${br}${effort}${text.slice(bodyStart, bodyEnd).trimEnd()}${br}`,
    },
  ];
  // An effort line above the first day goes along; one that is written below it is part of the body already.
  if (effortLine && effortLine.end < bodyStart)
    edits.push({ file, span: { start: effortLine.start - br.length, end: effortLine.end }, newText: '' });
  return tried(session, { edits: joined(edits), newFiles: [] });
}

/** Edits that touch become one. */
function joined(edits: readonly FileEdit[]): FileEdit[] {
  const sorted = [...edits].sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
  const out: FileEdit[] = [];
  for (const edit of sorted) {
    const last = out[out.length - 1];
    if (last && edit.span.start <= last.span.end) {
      out[out.length - 1] = {
        file: edit.file,
        span: { start: last.span.start, end: Math.max(last.span.end, edit.span.end) },
        newText: last.newText + edit.newText,
      };
    } else out.push(edit);
  }
  return out;
}
