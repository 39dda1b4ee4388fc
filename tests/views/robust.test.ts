import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { completions } from '../../server/src/engine/views/completion.js';
import { foldingRanges } from '../../server/src/engine/views/folding.js';
import { hover } from '../../server/src/engine/views/hover.js';
import { inlayHints } from '../../server/src/engine/views/inlayHints.js';
import {
  definition,
  highlights,
  prepareRename,
  references,
  rename,
} from '../../server/src/engine/views/navigation.js';
import { quickFixes, safeFixes } from '../../server/src/engine/views/quickFixes.js';
import { selectionRange } from '../../server/src/engine/views/selectionRanges.js';
import { semanticTokens } from '../../server/src/engine/views/semanticTokens.js';
import { documentSymbols, workspaceSymbols } from '../../server/src/engine/views/symbols.js';
import { SAMPLES, WORKED } from './samples.js';
import { SMALL, sessionOf } from './workspace.js';

/** Asks every view about a text at an offset and looks at what every answer has to hold. */
function askAll(text: string, offset: number): void {
  const session = sessionOf({ 'kit.stave': SMALL['kit.stave'] ?? '', 'own.stave': text });
  const tree = session.tree('own.stave')?.value;
  if (!tree) throw new Error('The file was not read.');
  const span = { start: 0, end: text.length };
  const inside = ({ start, end }: { start: number; end: number }): void => {
    expect(start).toBeGreaterThanOrEqual(0);
    expect(end).toBeGreaterThanOrEqual(start);
    expect(end).toBeLessThanOrEqual(text.length);
  };
  for (const hint of inlayHints(session, 'own.stave', span, {
    clientKey: null,
    loads: true,
    reserve: true,
    plates: true,
  })) {
    expect(hint.label.trim()).not.toBe('');
    inside({ start: hint.offset, end: hint.offset });
  }
  const shown = hover(session, 'own.stave', offset);
  if (shown) inside(shown.span);
  for (const { replace } of completions(session, 'own.stave', offset)) {
    inside(replace);
    expect(replace.start <= offset && offset <= replace.end).toBe(true);
  }
  for (const { span: token } of semanticTokens(text, tree)) inside(token);
  for (const { startLine, endLine } of foldingRanges(text, tree)) expect(endLine).toBeGreaterThan(startLine);
  for (const part of selectionRange(text, tree, offset)) inside(part);
  for (const symbol of documentSymbols(tree)) inside(symbol.span);
  workspaceSymbols(session, 'a');
  for (const action of quickFixes(session, 'own.stave', span)) {
    for (const edit of action.edits) if (edit.file === 'own.stave') inside(edit.span);
  }
  safeFixes(session, 'own.stave');
  definition(session, 'own.stave', offset);
  references(session, 'own.stave', offset, true);
  highlights(session, 'own.stave', offset);
  prepareRename(session, 'own.stave', offset);
  rename(session, 'own.stave', offset, 'another');
}

describe('every view answers about any text', { timeout: 90_000 }, () => {
  const whole = Object.values(SMALL).join('\n');
  const texts = [
    WORKED,
    whole,
    ...SAMPLES.filter(({ file }) => !file.includes('movements')).map(({ text }) => text),
  ];

  it('that is cut off', () => {
    const cut = fc.tuple(fc.constantFrom(...texts), fc.nat(), fc.nat()).map(([text, end, at]) => {
      const head = text.slice(0, end % (Math.min(text.length, 2500) + 1));
      return { head, offset: at % (head.length + 1) };
    });
    fc.assert(
      fc.property(cut, ({ head, offset }) => askAll(head, offset)),
      { numRuns: 40 },
    );
  });

  it('that holds a slip', () => {
    const slipped = fc
      .tuple(
        fc.constantFrom(WORKED, whole),
        fc.nat(),
        fc.nat(8),
        fc.constantFrom('', '|', ';', '"', ':', ',', '\n', '--', '(', 'x', '漢'),
      )
      .map(([text, at, length, put]) => {
        const start = at % (text.length + 1);
        return { text: text.slice(0, start) + put + text.slice(start + length), offset: start };
      });
    fc.assert(
      fc.property(slipped, ({ text, offset }) => askAll(text, offset)),
      { numRuns: 60 },
    );
  });

  it('that is no program at all', () => {
    const anything = fc.string({
      unit: fc.constantFrom(...'ab 4x6|;:,"-–r2%\n\r\t×(漢\ud83d'),
      maxLength: 80,
    });
    fc.assert(
      fc.property(anything, fc.nat(80), (text, at) => askAll(text, Math.min(at, text.length))),
      { numRuns: 100 },
    );
  });

  it('about a file that is not there, or an offset outside', () => {
    const session = sessionOf(SMALL);
    const span = { start: 0, end: 10 };
    expect(
      inlayHints(session, 'none', span, { clientKey: null, loads: true, reserve: true, plates: true }),
    ).toEqual([]);
    expect(hover(session, 'none', 3)).toBeNull();
    expect(completions(session, 'none', 3)).toEqual([]);
    expect(completions(session, 'kit.stave', 100000)).toEqual([]);
    expect(hover(session, 'kit.stave', 100000)).toBeNull();
    expect(quickFixes(session, 'none', span)).toEqual([]);
    expect(rename(session, 'none', 3, 'x').ok).toBe(false);
  });
});
