import type { IToken } from 'chevrotain';
import type * as ast from './ast.js';
import { LogRules } from './logRules.js';
import type { Problem, Span } from './problem.js';
import { checkRow, type RowPlace } from './rowChecks.js';
import { joinSlips } from './slips.js';
import { words } from './tokens.js';

/** What reading one line gave. `stopped`: the word from which on the line fits no rule, null at its end. */
export interface Reading<Value> {
  readonly value: Value | undefined;
  readonly problems: readonly Problem[];
  readonly stopped: { readonly at: IToken | null } | null;
}

/** All rules of the notation, one entry rule for each kind of line. */
export class LineParser extends LogRules {
  constructor() {
    super();
    this.performSelfAnalysis();
  }

  /** A word out of a closed list, or the problem that it is none of it. */
  check<Value extends string>(
    name: ast.Name,
    what: string,
    list: readonly Value[],
  ): ast.Word<Value> | Problem {
    this.found = [];
    const known = this.oneOf(name, what, list);
    return known ?? (this.found[0] as Problem);
  }

  /** Reads the part `value` of `source` by one rule. */
  read<Value>(rule: () => Value, source: string, value: Span): Reading<Value> {
    this.source = source;
    this.valueStart = value.start;
    this.valueEnd = value.end;
    this.found = [];
    this.input = words(source.slice(value.start, value.end), value.start);
    const read = rule.call(this);
    const failed = this.errors[0];
    const problems = this.found;
    this.found = [];
    if (failed === undefined) return { value: read, problems, stopped: null };
    const at = failed.token.tokenType.name === 'EOF' ? null : failed.token;
    return { value: undefined, problems, stopped: { at } };
  }

  /** The cells of a row, each with its own problems. */
  row(source: string, value: Span, place: RowPlace, nameSpan: Span): Reading<readonly ast.CellNode[]> {
    const reading = this.read(this.cells, source, value);
    if (reading.value === undefined) return reading;
    const problems = [...joinSlips(source, reading.problems)];
    const cells = checkRow(reading.value, place, nameSpan, (found) => problems.push(found));
    return { value: cells, problems, stopped: null };
  }
}

let shared: LineParser | null = null;

/** The one parser; building it takes a few milliseconds, so it is built when the first line is read. */
export function lineParser(): LineParser {
  shared ??= new LineParser();
  return shared;
}
