import { describe, expect, it } from 'vitest';
import { parse } from '../../grammar/index.js';
import { foldingRanges } from '../../server/src/engine/views/folding.js';
import { selectionRange } from '../../server/src/engine/views/selectionRanges.js';
import { semanticTokens } from '../../server/src/engine/views/semanticTokens.js';
import {
  type DocumentSymbol,
  documentSymbols,
  workspaceSymbols,
} from '../../server/src/engine/views/symbols.js';
import { SAMPLES } from './samples.js';
import { boathouse, SMALL, sessionOf } from './workspace.js';

const TEXT = `-- Two lines of notes
-- about the program.
program Winter

block Keel, 3 weeks, heavy, deload 3
day Lower
  back squat (pause): 3x6 r2 band medium | +2% -- note
  circuit Ring, 2 rounds
    push-up: x8
  end

-- The second day.
day Upper
  press: 3x8

log Heron, 2026-12-07, Lower
  as planned
`;
const tree = parse(TEXT).value;

function outline(symbols: readonly DocumentSymbol[], depth = 0): string[] {
  return symbols.flatMap((symbol) => [
    `${'  '.repeat(depth)}${symbol.kind} ${symbol.name}${symbol.detail === '' ? '' : ` (${symbol.detail})`}`,
    ...outline(symbol.children, depth + 1),
  ]);
}

describe('outline', () => {
  it('nests programs, blocks, days, circuits and rows', () => {
    expect(outline(documentSymbols(tree))).toEqual([
      'program Winter',
      '  block Keel (3 weeks, heavy)',
      '    day Lower',
      '      row back squat (pause)',
      '      circuit Ring (2 rounds)',
      '        row push-up',
      '    day Upper',
      '      row press',
      'log Heron, 2026-12-07, Lower (log)',
    ]);
  });

  it('keeps what is selected inside what is shown, in every sample', () => {
    const check = (symbol: DocumentSymbol): void => {
      expect(symbol.selectionSpan.start).toBeGreaterThanOrEqual(symbol.span.start);
      expect(symbol.selectionSpan.end).toBeLessThanOrEqual(symbol.span.end);
      expect(symbol.name).not.toBe('');
      symbol.children.forEach(check);
    };
    for (const { text } of SAMPLES) documentSymbols(parse(text).value).forEach(check);
  });

  it('finds names of all files by parts of them', () => {
    const session = sessionOf(SMALL);
    expect(workspaceSymbols(session, 'kee').map(({ name, container }) => [name, container])).toEqual([
      ['Keel', 'Winter'],
    ]);
    expect(workspaceSymbols(session, '').length).toBe(6);
    expect(workspaceSymbols(boathouse(), 'tide making').map(({ name }) => name)).toContain('Making tide');
  });
});

describe('folding', () => {
  it('folds sections, blocks, days, circuits and runs of notes; notes above a day stay with it', () => {
    const folds = foldingRanges(TEXT, tree).map(({ startLine, endLine, kind }) => [startLine, endLine, kind]);
    expect(folds).toEqual([
      [0, 1, 'comment'],
      [2, 13, 'region'],
      [4, 13, 'region'],
      [5, 9, 'region'],
      [7, 9, 'region'],
      [12, 13, 'region'],
      [15, 16, 'region'],
    ]);
  });
});

describe('colours', () => {
  it('tells names, labels, values and notes apart', () => {
    const tokens = semanticTokens(TEXT, tree).map(({ span, type, definition }) => [
      TEXT.slice(span.start, span.end),
      type,
      definition,
    ]);
    expect(tokens).toEqual(
      expect.arrayContaining([
        ['program', 'keyword', false],
        ['Winter', 'namespace', true],
        ['back squat', 'function', false],
        ['3x6', 'number', false],
        ['medium', 'enumMember', false],
        ['|', 'operator', false],
        ['-- note', 'comment', false],
        ['Heron', 'variable', false],
        ['Lower', 'struct', false],
      ]),
    );
  });

  it.each(SAMPLES)('$file: in order, inside one line, never over each other', ({ text }) => {
    let end = 0;
    for (const token of semanticTokens(text, parse(text).value)) {
      expect(token.span.start).toBeGreaterThanOrEqual(end);
      expect(text.slice(token.span.start, token.span.end)).not.toMatch(/[\r\n]/);
      end = token.span.end;
    }
    expect(end).toBeGreaterThan(0);
  });
});

describe('colours of a line to print', () => {
  it('are those of text, like quoted text in a row', () => {
    const text = 'program P\nblock A, 1 week\nday S\n  "Inside the rack."\n  back squat: 3x5 r2 "slowly"\n';
    const strings = semanticTokens(text, parse(text).value).filter(({ type }) => type === 'string');
    expect(strings.map(({ span }) => text.slice(span.start, span.end))).toEqual([
      '"Inside the rack."',
      '"slowly"',
    ]);
  });
});

describe('growing selection', () => {
  it('grows from an item to the file', () => {
    const chain = selectionRange(TEXT, tree, TEXT.indexOf('3x6') + 1).map(({ start, end }) =>
      TEXT.slice(start, end),
    );
    expect(chain[0]).toBe('3x6');
    expect(chain[chain.length - 1]).toBe(TEXT);
    expect(chain.length).toBeGreaterThan(4);
    for (let at = 1; at < chain.length; at++) expect(chain[at]).toContain(chain[at - 1]);
  });
});
