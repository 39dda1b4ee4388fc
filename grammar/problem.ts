/** A half-open range of UTF-16 offsets in the text of one file. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

export type Severity = 'error' | 'warning' | 'info' | 'hint';

/** One replacement of text in the file that the problem stands in. */
export interface TextEdit {
  readonly span: Span;
  readonly newText: string;
}

/** A repair that a coach can take with one keystroke. `safe` means that it cannot change what the program asks for. */
export interface Fix {
  readonly title: string;
  readonly safe: boolean;
  readonly edits: readonly TextEdit[];
}

/**
 * Something wrong with the notation itself. The message says what is wrong, what was found and what to try,
 * in a coach's words.
 */
export interface Problem {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  readonly span: Span;
  readonly fixes: readonly Fix[];
}

/** Every stage of the pipeline returns its value together with what went wrong on the way. */
export interface Outcome<Value> {
  readonly value: Value;
  readonly problems: readonly Problem[];
}
