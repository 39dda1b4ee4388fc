import type { IToken } from 'chevrotain';
import type * as ast from './ast.js';
import { KitRules } from './kitRules.js';
import { problem, shown } from './messages.js';
import type { Span } from './problem.js';
import { say } from './say.js';
import { plain } from './slips.js';
import { NamePart, spanOf, token } from './tokens.js';
import * as values from './values.js';

export interface BlockHeader {
  readonly name: ast.Name;
  weeks?: ast.Num | null;
  stage?: ast.Word<ast.StageName>;
  deloadWeeks?: ast.Num[];
  like?: ast.BlockNode['like'];
  likeChangePercent?: ast.Num;
}

export interface CircuitHeader {
  readonly name: ast.Name;
  rounds?: ast.Num | null;
  seconds?: ast.Num | null;
  everySeconds?: ast.Num | null;
  restSeconds?: ast.Num | null;
}

/** The openers of programs that say more than a name, and the rounds of a circuit. */
export abstract class ProgramRules extends KitRules {
  readonly roundsByWeek = this.RULE('roundsByWeek', (): (ast.Num | null)[] => {
    const read: (ast.Num | null)[] = [];
    this.AT_LEAST_ONE_SEP({
      SEP: token('Pipe'),
      DEF: () => {
        const part = this.OPTION(() => this.CONSUME(token('Integer')));
        this.ACTION(() => read.push(part === undefined ? null : this.count(part, say('Rounds'), 1, 99)));
      },
    });
    return read;
  });

  readonly blockHeader = this.RULE('blockHeader', (): BlockHeader => {
    const name = this.SUBRULE1(this.name);
    const header: BlockHeader = { name };
    this.MANY(() => {
      this.SUBRULE(this.comma);
      this.OR([
        {
          ALT: () => {
            const part = this.CONSUME1(token('Integer'));
            this.CONSUME(token('Weeks'));
            this.ACTION(() =>
              this.put(header, 'weeks', this.count(part, say('Weeks'), 1, 104), spanOf(part)),
            );
          },
        },
        {
          ALT: () => {
            const part = this.CONSUME(token('Stage'));
            this.ACTION(() =>
              this.put(
                header,
                'stage',
                { value: plain(part.image) as ast.StageName, span: spanOf(part) },
                spanOf(part),
              ),
            );
          },
        },
        {
          ALT: () => {
            const word = this.CONSUME(token('Deload'));
            const weeks: ast.Num[] = [];
            this.AT_LEAST_ONE(() => {
              const part = this.CONSUME2(token('Integer'));
              this.ACTION(() => {
                const week = this.count(part, say('Weeks'), 1, 104);
                if (week !== null) weeks.push(week);
              });
            });
            this.ACTION(() => this.put(header, 'deloadWeeks', weeks, spanOf(word)));
          },
        },
        {
          ALT: () => {
            const word = this.CONSUME(token('Like'));
            const like = this.SUBRULE(this.likeWhat);
            this.ACTION(() => this.put(header, 'like', like, spanOf(word)));
          },
        },
        {
          ALT: () => {
            const part = this.CONSUME(token('ChangePercent'));
            this.ACTION(() =>
              this.put(
                header,
                'likeChangePercent',
                { value: values.leadingNumber(part.image), span: spanOf(part) },
                spanOf(part),
              ),
            );
          },
        },
      ]);
    });
    return header;
  });

  private put<Header, Key extends keyof Header>(
    header: Header,
    key: Key,
    value: Header[Key],
    span: Span,
  ): void {
    if (header[key] !== undefined) {
      this.report(
        problem(
          'item-twice',
          span,
          say`This is said twice in the line: ${shown(this.source.slice(span.start, span.end))}. Leave one out.`,
        ),
      );
    }
    header[key] = value;
  }

  private readonly likeWhat = this.RULE('likeWhat', (): BlockHeader['like'] => {
    const parts: IToken[][] = [[]];
    this.AT_LEAST_ONE(() => {
      const part = this.CONSUME(NamePart);
      this.ACTION(() => {
        if (part.tokenType.name === 'Slash') parts.push([]);
        else (parts[parts.length - 1] as IToken[]).push(part);
      });
    });
    return this.ACTION((): BlockHeader['like'] => {
      const all = parts.flat();
      const names = parts.map((some) => (some.length === 0 ? null : values.nameFrom(this.source, some)));
      const span = {
        start: all[0]?.startOffset ?? this.valueStart,
        end: all.length === 0 ? this.valueEnd : spanOf(all[all.length - 1] as IToken).end,
      };
      const [first, second] = names;
      if (names.length === 1 && first) return { program: null, block: first, span };
      if (names.length === 2 && first && second) return { program: first, block: second, span };
      this.report(
        problem(
          'syntax',
          span,
          say('`like` needs a block: `like Keel`, or `like PROGRAM / Keel` for one of another program.'),
        ),
      );
      return null;
    });
  });

  readonly circuitHeader = this.RULE('circuitHeader', (): CircuitHeader => {
    const name = this.SUBRULE(this.name);
    const header: CircuitHeader = { name };
    this.MANY(() => {
      this.SUBRULE(this.comma);
      this.OR([
        {
          ALT: () => {
            const part = this.CONSUME(token('Integer'));
            this.CONSUME(token('Rounds'));
            this.ACTION(() =>
              this.put(header, 'rounds', this.count(part, say('Rounds'), 1, 99), spanOf(part)),
            );
          },
        },
        { ALT: () => this.headerTime(header, 'seconds', this.CONSUME1(token('Duration'))) },
        {
          ALT: () => {
            this.CONSUME(token('Every'));
            this.headerTime(header, 'everySeconds', this.CONSUME2(token('Duration')));
          },
        },
        {
          ALT: () => {
            this.CONSUME(token('Rest'));
            this.headerTime(header, 'restSeconds', this.CONSUME3(token('Duration')));
          },
        },
      ]);
    });
    return header;
  });

  private headerTime(
    header: CircuitHeader,
    key: 'seconds' | 'everySeconds' | 'restSeconds',
    part: IToken,
  ): void {
    this.ACTION(() => {
      const seconds = values.secondsOf(part.image, spanOf(part), this.report, 7200);
      this.put(header, key, seconds === null ? null : { value: seconds, span: spanOf(part) }, spanOf(part));
    });
  }
}
