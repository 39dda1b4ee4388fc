import type { IToken } from 'chevrotain';
import * as ast from './ast.js';
import { ClientRules } from './clientRules.js';
import { doneGroup, type DoneParts } from './doneSets.js';
import { checkRow, type RowPlace } from './rowChecks.js';
import { problem, shown } from './messages.js';
import type { Problem, Span } from './problem.js';
import type { Unplaced } from './statementRules.js';
import { joinSlips, plain } from './slips.js';
import { NamePart, spanOf, token, words } from './tokens.js';
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

export interface LogHeader {
  readonly clients: readonly ast.Name[];
  readonly date: ast.DateNode | null;
  readonly day: ast.Name | null;
}

/** What reading one line gave. `stopped`: the word from which on the line fits no rule, null at its end. */
export interface Reading<Value> {
  readonly value: Value | undefined;
  readonly problems: readonly Problem[];
  readonly stopped: { readonly at: IToken | null } | null;
}

/** All rules of the notation, one entry rule for each kind of line. */
export class LineParser extends ClientRules {
  // ------------------------------------------------------------ kits and movements

  private readonly stock = this.RULE('stock', (): ast.StockNode | null => {
    const from = this.CONSUME1(token('MassWord'));
    let to: IToken | undefined;
    let by: IToken | undefined;
    let times: IToken | undefined;
    this.OPTION1(() =>
      this.OR([
        {
          ALT: () => {
            this.CONSUME(token('To'));
            to = this.CONSUME2(token('MassWord'));
            this.CONSUME(token('By'));
            by = this.CONSUME3(token('MassWord'));
          },
        },
        {
          ALT: () => {
            times = this.CONSUME(token('Times'));
          },
        },
      ]),
    );
    return this.ACTION(() => this.stockNode(from, to, by, times));
  });

  private stockNode(first: IToken, last: IToken | undefined, step: IToken | undefined, times: IToken | undefined): ast.StockNode | null {
    const from = values.positiveMass(first, this.report);
    if (from === null) return null;
    const end = spanOf(step ?? times ?? first).end;
    const span = { start: first.startOffset, end };
    if (last !== undefined && step !== undefined) {
      const to = values.positiveMass(last, this.report);
      const by = values.positiveMass(step, this.report);
      if (to === null || by === null) return null;
      if (to.kg >= from.kg && (to.kg - from.kg) / by.kg <= 1000) return { kind: 'range', from, to, by, span };
      this.report(problem('out-of-range', span, `A range goes from the lightest to the heaviest in steps. Found ${shown(this.source.slice(span.start, span.end))}.`));
      return null;
    }
    if (times === undefined) return { kind: 'pieces', mass: from, count: null, span };
    const counted = values.countOf(Number(times.image.slice(1)), spanOf(times), times.image, 'Counts', 1, 99, this.report);
    return counted && { kind: 'pieces', mass: from, count: counted, span };
  }

  readonly stocks = this.RULE('stocks', (): ast.StockNode[] => {
    const read: ast.StockNode[] = [];
    const first = this.SUBRULE1(this.stock);
    this.ACTION(() => first !== null && read.push(first));
    this.MANY({
      GATE: () => this.LA(2).tokenType.name !== 'Fits',
      DEF: () => {
        this.CONSUME(token('Comma'));
        const next = this.SUBRULE2(this.stock);
        this.ACTION(() => next !== null && read.push(next));
      },
    });
    return read;
  });

  readonly plates = this.RULE('plates', (): ast.StockNode[] => {
    const read = this.SUBRULE(this.stocks);
    this.ACTION(() => {
      for (const one of read) {
        if (one.kind === 'pieces' && one.count !== null) continue;
        this.report(problem('unit-missing', one.span, 'Say how many of these plates there are, both sides together, such as `5kg x4`.'));
      }
    });
    return read;
  });

  readonly machine = this.RULE('machine', (): { stock: ast.StockNode[]; fitsCm: readonly [number, number] | null } => {
    const stock = this.SUBRULE(this.stocks);
    const fitsCm = this.OPTION(() => {
      this.SUBRULE(this.comma);
      this.CONSUME(token('Fits'));
      const low = this.OR1([{ ALT: () => this.CONSUME1(token('Length')) }, { ALT: () => this.CONSUME1(token('Metres')) }]);
      this.CONSUME(token('To'));
      const high = this.OR2([{ ALT: () => this.CONSUME2(token('Length')) }, { ALT: () => this.CONSUME2(token('Metres')) }]);
      return this.ACTION((): readonly [number, number] => {
        const pair = [values.centimetresOf(low.image), values.centimetresOf(high.image)] as const;
        if (pair[0] > pair[1]) {
          this.report(problem('out-of-range', { start: low.startOffset, end: spanOf(high).end }, 'Write the shorter height first: `fits 165cm to 190cm`.'));
        }
        return pair;
      });
    });
    return { stock, fitsCm: fitsCm ?? null };
  });

  readonly barMass = this.RULE('barMass', (): ast.Mass | null => {
    const part = this.CONSUME(token('MassWord'));
    return this.ACTION(() => values.positiveMass(part, this.report));
  });

  readonly packStock = this.RULE('packStock', (): Unplaced<ast.KitLine> | null => {
    this.CONSUME(token('To'));
    const last = this.CONSUME1(token('MassWord'));
    this.CONSUME(token('By'));
    const step = this.CONSUME2(token('MassWord'));
    return this.ACTION(() => {
      const to = values.positiveMass(last, this.report);
      const by = values.positiveMass(step, this.report);
      if (to === null || by === null) return null;
      if (to.kg >= by.kg) return { kind: 'pack', to, by };
      this.report(problem('out-of-range', { start: last.startOffset, end: spanOf(step).end }, 'The step is larger than the whole pack. Write it like `to 16kg by 1kg`.'));
      return null;
    });
  });

  readonly bands = this.RULE('bands', (): ast.Name[] => {
    const read = this.SUBRULE(this.names);
    this.ACTION(() => {
      for (const name of read) {
        if (!/\s/.test(name.text)) continue;
        this.report(problem('syntax', name.span, `The name of a band is one word. Found ${shown(name.text)}; put a comma between bands.`));
      }
    });
    return read;
  });

  readonly withWhat = this.RULE('withWhat', (): Unplaced<ast.MovementLine> | null =>
    this.OR([
      {
        ALT: () => {
          const part = this.CONSUME(token('Machine'));
          const machine = this.SUBRULE1(this.name);
          return this.ACTION((): Unplaced<ast.MovementLine> => ({
            kind: 'with',
            equipment: { value: 'machine', span: spanOf(part) },
            machine,
          }));
        },
      },
      {
        ALT: () => {
          const name = this.SUBRULE2(this.name);
          return this.ACTION((): Unplaced<ast.MovementLine> | null => {
            const equipment = this.oneOf(name, 'The equipment', ast.EQUIPMENT_NAMES);
            return equipment && { kind: 'with', equipment, machine: null };
          });
        },
      },
    ]),
  );

  readonly estimate = this.RULE('estimate', (): Unplaced<ast.MovementLine> | null => {
    const part = this.CONSUME(token('Percent'));
    this.CONSUME(token('Of'));
    const of = this.SUBRULE(this.name);
    return this.ACTION(() => {
      const percent = values.percentOf(part, 400, this.report);
      return percent && { kind: 'estimate', percent, of };
    });
  });

  readonly lifts = this.RULE('lifts', (): Unplaced<ast.MovementLine> | null => {
    const part = this.CONSUME(token('Percent'));
    this.CONSUME(token('Of'));
    this.CONSUME(token('BodyMass'));
    return this.ACTION(() => {
      const percent = values.percentOf(part, 150, this.report);
      return percent && { kind: 'lifts', percent };
    });
  });

  readonly onlyName = this.RULE('onlyName', (): ast.Name => this.SUBRULE(this.name));
  readonly onlyText = this.RULE('onlyText', (): ast.TextNode => this.SUBRULE(this.text));

  /** A word out of a closed list, or the problem that it is none of it. */
  check<Value extends string>(name: ast.Name, what: string, list: readonly Value[]): ast.Word<Value> | Problem {
    this.found = [];
    const known = this.oneOf(name, what, list);
    return known ?? (this.found[0] as Problem);
  }

  // ------------------------------------------------------------ programs

  readonly roundsByWeek = this.RULE('roundsByWeek', (): (ast.Num | null)[] => {
    const read: (ast.Num | null)[] = [];
    this.AT_LEAST_ONE_SEP({
      SEP: token('Pipe'),
      DEF: () => {
        const part = this.OPTION(() => this.CONSUME(token('Integer')));
        this.ACTION(() => read.push(part === undefined ? null : this.count(part, 'Rounds', 1, 99)));
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
            this.ACTION(() => this.put(header, 'weeks', this.count(part, 'Weeks', 1, 104), spanOf(part)));
          },
        },
        {
          ALT: () => {
            const part = this.CONSUME(token('Stage'));
            this.ACTION(() => this.put(header, 'stage', { value: plain(part.image) as ast.StageName, span: spanOf(part) }, spanOf(part)));
          },
        },
        {
          ALT: () => {
            const word = this.CONSUME(token('Deload'));
            const weeks: ast.Num[] = [];
            this.AT_LEAST_ONE(() => {
              const part = this.CONSUME2(token('Integer'));
              this.ACTION(() => {
                const week = this.count(part, 'Weeks', 1, 104);
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
            this.ACTION(() => this.put(header, 'likeChangePercent', { value: values.leadingNumber(part.image), span: spanOf(part) }, spanOf(part)));
          },
        },
      ]);
    });
    return header;
  });

  private put<Header, Key extends keyof Header>(header: Header, key: Key, value: Header[Key], span: Span): void {
    if (header[key] !== undefined) {
      this.report(problem('item-twice', span, `This is said twice in the line: ${shown(this.source.slice(span.start, span.end))}. Leave one out.`));
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
      const span = { start: all[0]?.startOffset ?? this.valueStart, end: all.length === 0 ? this.valueEnd : spanOf(all[all.length - 1] as IToken).end };
      const [first, second] = names;
      if (names.length === 1 && first) return { program: null, block: first, span };
      if (names.length === 2 && first && second) return { program: first, block: second, span };
      this.report(problem('syntax', span, '`like` needs a block: `like Keel`, or `like PROGRAM / Keel` for one of another program.'));
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
            this.ACTION(() => this.put(header, 'rounds', this.count(part, 'Rounds', 1, 99), spanOf(part)));
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

  private headerTime(header: CircuitHeader, key: 'seconds' | 'everySeconds' | 'restSeconds', part: IToken): void {
    this.ACTION(() => {
      const seconds = values.secondsOf(part.image, spanOf(part), this.report, 7200);
      this.put(header, key, seconds === null ? null : { value: seconds, span: spanOf(part) }, spanOf(part));
    });
  }

  // ------------------------------------------------------------ logs

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

  readonly done = this.RULE('done', (): Pick<ast.LogLine & { kind: 'done' }, 'groups' | 'asPlanned' | 'skipped'> =>
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
        ALT: () => {
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
          return { groups, asPlanned: false, skipped: null };
        },
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
              const part = this.OR2([{ ALT: () => this.CONSUME(token('Integer')) }, { ALT: () => this.CONSUME(token('Decimal')) }]);
              this.ACTION(() => {
                const value = Number(part.image);
                if (value <= 10 && Number.isInteger(value * 2)) rpe = { value, span: spanOf(part) };
                else this.report(problem('out-of-range', spanOf(part), `The effort of a session goes from 0 to 10 in halves. Found ${shown(part.image)}.`));
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
        return { kind: 'pain', where, score: { value: score, span: { start: last.startOffset, end: last.startOffset + last.image.indexOf('/') } } };
      }
      this.report(problem('syntax', spanOf(last), `Pain is a place and a number out of ten, such as \`pain: knee 3/10\`. Found ${shown(last.image)}.`));
      return null;
    });
  });

  // ------------------------------------------------------------ entry

  constructor() {
    super();
    this.performSelfAnalysis();
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
