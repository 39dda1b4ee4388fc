import type { IToken } from 'chevrotain';
import type * as ast from './ast.js';
import { type DoneParts, doneGroup } from './doneSets.js';
import { problem, shown } from './messages.js';
import { ProgramRules } from './programRules.js';
import { say } from './say.js';
import type { Unplaced } from './statementRules.js';
import { NamePart, spanOf, token } from './tokens.js';
import * as values from './values.js';

export interface LogHeader {
  readonly clients: readonly ast.Name[];
  readonly date: ast.DateNode | null;
  readonly day: ast.Name | null;
}

/** A swap as it stands in a log, before the label of the row is read. */
export interface SwapDone {
  readonly row: ast.Name;
  readonly to: ast.Name;
  readonly groups: readonly ast.DoneGroup[];
  readonly reason: ast.TextNode | null;
}

/** What stands in a log. */
export abstract class LogRules extends ProgramRules {
  readonly logHeader = this.RULE('logHeader', (): LogHeader => {
    const clients: ast.Name[] = [];
    this.AT_LEAST_ONE({
      GATE: () => this.LA(1).tokenType.name !== 'DateWord',
      DEF: () => {
        const name = this.SUBRULE1(this.name);
        this.CONSUME1(token('Comma'));
        this.ACTION(() => clients.push(name));
      },
    });
    const date = this.SUBRULE(this.date);
    const day = this.OPTION(() => {
      this.CONSUME2(token('Comma'));
      return this.SUBRULE2(this.name);
    });
    return { clients, date, day: day ?? null };
  });

  private readonly doneParts = this.RULE('doneParts', (): DoneParts => {
    const parts: DoneParts = { items: [], sets: [] };
    this.AT_LEAST_ONE(() =>
      this.OR([
        {
          ALT: () => {
            const item = this.SUBRULE(this.plainItem);
            this.ACTION(() => item !== null && parts.items.push(item));
          },
        },
        { ALT: () => this.doneWord(parts, this.CONSUME(token('Integer'))) },
        { ALT: () => this.doneWord(parts, this.CONSUME(token('Pair'))) },
        { ALT: () => this.doneWord(parts, this.CONSUME(token('Duration'))) },
        { ALT: () => this.doneWord(parts, this.CONSUME(token('Metres'))) },
      ]),
    );
    return parts;
  });

  private doneWord(parts: DoneParts, part: IToken): void {
    this.ACTION(() => parts.sets.push(part));
  }

  private readonly doneGroups = this.RULE('doneGroups', (): ast.DoneGroup[] => {
    const groups: ast.DoneGroup[] = [];
    this.AT_LEAST_ONE_SEP({
      SEP: token('Semi'),
      DEF: () => {
        const parts = this.SUBRULE(this.doneParts);
        this.ACTION(() => {
          const group = doneGroup(parts, this.report);
          if (group !== null) groups.push(group);
        });
      },
    });
    return groups;
  });

  /** `swap: back squat (pause), to leg press, 60kg 10 10 r3, "rack taken"`. */
  readonly swapDone = this.RULE('swapDone', (): SwapDone | null => {
    const row = this.SUBRULE1(this.name);
    this.CONSUME1(token('Comma'));
    this.CONSUME(token('To'));
    const to = this.SUBRULE2(this.name);
    const groups = this.OPTION1({
      GATE: () => this.LA(2).tokenType.name !== 'Text',
      DEF: () => {
        this.CONSUME2(token('Comma'));
        return this.SUBRULE(this.doneGroups);
      },
    });
    const reason = this.OPTION2(() => {
      this.CONSUME3(token('Comma'));
      return this.SUBRULE(this.text);
    });
    return this.ACTION(() =>
      this.nameEnds(to) ? { row, to, groups: groups ?? [], reason: reason ?? null } : null,
    );
  });

  readonly done = this.RULE(
    'done',
    (): Pick<ast.LogLine & { kind: 'done' }, 'groups' | 'asPlanned' | 'skipped'> =>
      this.OR([
        {
          ALT: () => {
            this.CONSUME(token('As'));
            this.CONSUME(token('Planned'));
            return { groups: [], asPlanned: true, skipped: null };
          },
        },
        {
          ALT: () => {
            this.CONSUME(token('Skipped'));
            const reason = this.OPTION(() => this.SUBRULE(this.text));
            return { groups: [], asPlanned: false, skipped: { reason: reason ?? null } };
          },
        },
        {
          ALT: () => ({ groups: this.SUBRULE(this.doneGroups), asPlanned: false, skipped: null }),
        },
      ]),
  );

  readonly session = this.RULE('session', (): Unplaced<ast.LogLine> | null => {
    let rpe: ast.Num | null = null;
    let minutes: ast.Num | null = null;
    this.AT_LEAST_ONE_SEP({
      SEP: token('Comma'),
      DEF: () =>
        this.OR1([
          {
            ALT: () => {
              this.CONSUME(token('Rpe'));
              const part = this.OR2([
                { ALT: () => this.CONSUME(token('Integer')) },
                { ALT: () => this.CONSUME(token('Decimal')) },
              ]);
              this.ACTION(() => {
                const value = Number(part.image);
                if (value <= 10 && Number.isInteger(value * 2)) rpe = { value, span: spanOf(part) };
                else
                  this.report(
                    problem(
                      'out-of-range',
                      spanOf(part),
                      say`The effort of a session goes from 0 to 10 in halves. Found ${shown(part.image)}.`,
                    ),
                  );
              });
            },
          },
          {
            ALT: () => {
              const part = this.CONSUME(token('Duration'));
              this.ACTION(() => {
                const seconds = values.secondsOf(part.image, spanOf(part), this.report, 36000);
                if (seconds !== null) minutes = { value: seconds / 60, span: spanOf(part) };
              });
            },
          },
        ]),
    });
    return { kind: 'session', rpe, minutes };
  });

  readonly pain = this.RULE('pain', (): Unplaced<ast.LogLine> | null => {
    const parts: IToken[] = [];
    this.AT_LEAST_ONE(() => {
      const part = this.CONSUME(NamePart);
      this.ACTION(() => parts.push(part));
    });
    return this.ACTION(() => {
      const last = parts[parts.length - 1] as IToken;
      const [score = 0, of = 0] = last.image.split('/').map(Number);
      if (parts.length > 1 && last.tokenType.name === 'Pair' && of === 10 && score <= 10) {
        const where = values.nameFrom(this.source, parts.slice(0, -1));
        return {
          kind: 'pain',
          where,
          score: {
            value: score,
            span: { start: last.startOffset, end: last.startOffset + last.image.indexOf('/') },
          },
        };
      }
      this.report(
        problem(
          'syntax',
          spanOf(last),
          say`Pain is a place and a number out of ten, such as \`pain: knee 3/10\`. Found ${shown(last.image)}.`,
        ),
      );
      return null;
    });
  });
}
