import type { IToken } from 'chevrotain';
import type * as ast from './ast.js';
import { CellRules } from './cellRules.js';
import { nearest, orList, problem, replace, shown } from './messages.js';
import type { Span } from './problem.js';
import { say } from './say.js';
import { nameEndSlip, plain } from './slips.js';
import { NamePart, spanOf, token } from './tokens.js';
import * as values from './values.js';

/** A line as a rule reads it: its span is set by whoever knows where the line stands. */
export type Unplaced<Line> = Line extends { readonly span: Span } ? Omit<Line, 'span'> : never;

/** Parts that may follow the main part of a statement, in any order, each once. */
export interface Clauses {
  from?: ast.DateNode | null;
  until?: ast.DateNode | null;
  reason?: ast.TextNode;
  on?: Weekdays;
  everyDays?: ast.Num | null;
  everyTime?: Omit<ast.DayTime, 'day'>;
  supervised?: boolean;
  alongside?: boolean;
  items?: ast.CellItem[];
}

/** Weekdays, and the times of those that have one. */
export interface Weekdays {
  readonly days: ast.Word<ast.Weekday>[];
  readonly times: ast.DayTime[];
}

/** Pieces that several statements share: names, dates, days, and the clauses after a comma. */
export abstract class SharedRules extends CellRules {
  protected readonly name = this.RULE('name', (): ast.Name => {
    const parts: IToken[] = [];
    this.AT_LEAST_ONE(() => {
      const part = this.CONSUME(NamePart);
      this.ACTION(() => parts.push(part));
    });
    return this.ACTION(() => values.nameFrom(this.source, parts)) as ast.Name;
  });

  protected readonly names = this.RULE('names', (): ast.Name[] => {
    const read: ast.Name[] = [];
    this.AT_LEAST_ONE_SEP({
      SEP: token('Comma'),
      DEF: () => {
        const name = this.SUBRULE(this.name);
        this.ACTION(() => read.push(name));
      },
    });
    return read;
  });

  protected readonly date = this.RULE('date', (): ast.DateNode | null => {
    const part = this.CONSUME(token('DateWord'));
    return this.ACTION(() => values.dateOf(part, this.report));
  });

  protected readonly text = this.RULE('text', (): ast.TextNode => {
    const part = this.CONSUME(token('Text'));
    return this.ACTION(() => ({ text: part.image.slice(1, -1), span: spanOf(part) }));
  });

  protected readonly comma = this.RULE('comma', () => {
    this.OPTION(() => this.CONSUME(token('Comma')));
  });

  protected readonly weekdays = this.RULE('weekdays', (timed = false): Weekdays => {
    const read: ast.Word<ast.Weekday>[] = [];
    const times: ast.DayTime[] = [];
    // A time is that of all days before it that have none: `mon thu 18:00 sat 9:30`.
    let waiting: ast.Weekday[] = [];
    this.AT_LEAST_ONE(() => {
      const part = this.CONSUME(token('Weekday'));
      this.ACTION(() => {
        const value = plain(part.image) as ast.Weekday;
        waiting.push(value);
        if (read.some((day) => day.value === value)) {
          this.report(problem('item-twice', spanOf(part), say`\`${value}\` is named twice. Leave one out.`));
        }
        read.push({ value, span: spanOf(part) });
      });
      this.OPTION({
        GATE: () => timed,
        DEF: () => {
          const time = this.CONSUME(token('TimeWord'));
          this.ACTION(() => {
            const minute = values.timeOf(time, this.report);
            if (minute !== null) times.push(...waiting.map((day) => ({ day, minute, span: spanOf(time) })));
            waiting = [];
          });
        },
      });
    });
    return { days: read, times };
  });

  private set<Key extends keyof Clauses>(
    clauses: Clauses,
    key: Key,
    value: Clauses[Key],
    part: IToken,
  ): void {
    if (clauses[key] !== undefined) {
      this.report(
        problem(
          'item-twice',
          spanOf(part),
          say`${shown(part.image)} stands twice in this line. Leave one out.`,
        ),
      );
    }
    clauses[key] = value;
  }

  /** `from DATE until DATE`, `on mon thu`, `every 3 days 18:00`, `supervised`, `"why"`, a dose. */
  protected readonly clauses = this.RULE('clauses', (allowed: readonly (keyof Clauses)[] = []): Clauses => {
    const read: Clauses = {};
    this.MANY(() => {
      this.SUBRULE(this.comma);
      this.OR([
        {
          GATE: () => allowed.includes('from'),
          ALT: () => {
            const part = this.CONSUME(token('From'));
            const date = this.SUBRULE1(this.date);
            this.ACTION(() => this.set(read, 'from', date, part));
          },
        },
        {
          GATE: () => allowed.includes('until'),
          ALT: () => {
            const part = this.CONSUME(token('Until'));
            const date = this.SUBRULE2(this.date);
            this.ACTION(() => this.set(read, 'until', date, part));
          },
        },
        {
          GATE: () => allowed.includes('on'),
          ALT: () => {
            const part = this.CONSUME(token('On'));
            const days = this.SUBRULE(this.weekdays, { ARGS: [allowed.includes('everyDays')] });
            this.ACTION(() => this.set(read, 'on', days, part));
          },
        },
        {
          GATE: () => allowed.includes('everyDays'),
          ALT: () => {
            const part = this.CONSUME(token('Every'));
            const count = this.CONSUME(token('Integer'));
            this.CONSUME(token('Days'));
            this.ACTION(() =>
              this.set(read, 'everyDays', this.count(count, say('Days between sessions'), 1, 28), part),
            );
            // One time for all of them, whatever weekday it is.
            this.OPTION(() => {
              const time = this.CONSUME(token('TimeWord'));
              this.ACTION(() => {
                const minute = values.timeOf(time, this.report);
                if (minute !== null) read.everyTime = { minute, span: spanOf(time) };
              });
            });
          },
        },
        {
          GATE: () => allowed.includes('supervised'),
          ALT: () => {
            const part = this.CONSUME(token('Supervised'));
            this.ACTION(() => this.set(read, 'supervised', true, part));
          },
        },
        {
          GATE: () => allowed.includes('alongside'),
          ALT: () => {
            const part = this.CONSUME(token('Alongside'));
            this.ACTION(() => this.set(read, 'alongside', true, part));
          },
        },
        {
          GATE: () => allowed.includes('reason'),
          ALT: () => {
            const part = this.CONSUME(token('Text'));
            this.ACTION(() =>
              this.set(read, 'reason', { text: part.image.slice(1, -1), span: spanOf(part) }, part),
            );
          },
        },
        {
          GATE: () => allowed.includes('items'),
          ALT: () => {
            const item = this.SUBRULE(this.plainItem);
            this.ACTION(() => {
              if (item !== null) read.items = [...(read.items ?? []), item];
            });
          },
        },
      ]);
    });
    this.ACTION(() => {
      if (read.from && read.until && read.until.iso < read.from.iso) {
        this.report(
          problem(
            'no-such-date',
            read.until.span,
            say`\`until\` lies before \`from\`. Found ${read.from.iso} until ${read.until.iso}.`,
          ),
        );
      }
    });
    return read;
  });

  protected count(part: IToken, what: string, least: number, most: number): ast.Num | null {
    return values.countOf(
      values.leadingNumber(part.image),
      spanOf(part),
      part.image,
      what,
      least,
      most,
      this.report,
    );
  }

  /**
   * Reports what was meant to follow a name but lacks its comma, such as `jump from 2026-10-01`. Whether the name is
   * whole.
   */
  protected nameEnds(name: ast.Name): boolean {
    const slip = nameEndSlip(this.source, name.span);
    if (slip === null) return true;
    this.report(slip);
    return false;
  }

  /** One word out of a closed list; null after a report that names the nearest. */
  protected oneOf<Value extends string>(
    name: ast.Name,
    what: string,
    list: readonly Value[],
  ): ast.Word<Value> | null {
    const value = list.find((each) => each === name.key);
    if (value !== undefined) return { value, span: name.span };
    const near = nearest(name.key, list);
    const ask =
      near === null
        ? say`Write ${orList(list.map((each) => `\`${each}\``))}.`
        : say`Did you mean \`${near}\`?`;
    this.report(
      problem(
        'syntax',
        name.span,
        say`${what} ${shown(name.text)} is not known. ${ask}`,
        near === null ? [] : [replace(name.span, near)],
      ),
    );
    return null;
  }
}
