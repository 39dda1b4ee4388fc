import type { IToken } from 'chevrotain';
import * as ast from './ast.js';
import { reserveItem, rpeItem } from './cellItems.js';
import { checkGroup } from './groupChecks.js';
import { problem, shown } from './messages.js';
import { say } from './say.js';
import { type Clauses, SharedRules, type Unplaced } from './statementRules.js';
import { NamePart, spanOf, token } from './tokens.js';
import * as values from './values.js';

type Line = Unplaced<ast.ClientLine> | null;

const WEEK: readonly ast.Weekday[] = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];

/** The statements of clients and groups. Each gives null when something in it was reported. */
export abstract class ClientRules extends SharedRules {
  private readonly partialDate = this.RULE('partialDate', (): ast.PartialDateNode | null => {
    const part = this.OR([
      { ALT: () => this.CONSUME(token('DateWord')) },
      { ALT: () => this.CONSUME(token('MonthWord')) },
      { ALT: () => this.CONSUME(token('Integer')) },
    ]);
    return this.ACTION(() => {
      const [year, month, day] = part.image
        .replace(/[\u2013\u2212]/g, '-')
        .split('-')
        .map(Number) as [number, number?, number?];
      if (values.dateExists(year, month ?? 1, day ?? 1))
        return { text: part.image.replace(/[\u2013\u2212]/g, '-'), span: spanOf(part) };
      this.report(
        problem(
          'no-such-date',
          spanOf(part),
          say`${shown(part.image)} is no year, month or day. Write it like \`1979\`, \`1979-03\` or \`1979-03-14\`.`,
        ),
      );
      return null;
    });
  });

  readonly born = this.RULE('born', (): Line => {
    const date = this.SUBRULE(this.partialDate);
    return date && { kind: 'born', date };
  });

  readonly liftingSince = this.RULE('liftingSince', (): Line => {
    const date = this.SUBRULE(this.partialDate);
    return date && { kind: 'lifting-since', date };
  });

  readonly height = this.RULE('height', (): Line => {
    const part = this.OR([
      { ALT: () => this.CONSUME(token('Length')) },
      { ALT: () => this.CONSUME(token('Metres')) },
    ]);
    return this.ACTION(() => {
      const value = values.centimetresOf(part.image);
      if (value >= 50 && value <= 260) return { kind: 'height', cm: { value, span: spanOf(part) } };
      this.report(
        problem(
          'out-of-range',
          spanOf(part),
          say`A body height lies between 50cm and 260cm. Found ${shown(part.image)}.`,
        ),
      );
      return null;
    });
  });

  readonly mass = this.RULE('mass', (): Line => {
    const part = this.CONSUME(token('MassWord'));
    const date = this.OPTION(() => {
      this.SUBRULE(this.comma);
      return this.SUBRULE(this.date);
    });
    return this.ACTION(() => {
      const mass = values.positiveMass(part, this.report);
      return mass === null || date === null ? null : { kind: 'mass', mass, date: date ?? null };
    });
  });

  readonly units = this.RULE('units', (): Line => {
    const name = this.SUBRULE(this.name);
    return this.ACTION(() => {
      const unit = this.oneOf(name, say('The unit'), ['kg', 'lb'] as const);
      return unit && { kind: 'units', unit };
    });
  });

  readonly screened = this.RULE('screened', (): Line => {
    const date = this.SUBRULE(this.date);
    return date && { kind: 'screened', date };
  });

  readonly condition = this.RULE('condition', (): Line => {
    const name = this.SUBRULE(this.name);
    return this.ACTION(() => {
      const condition = this.oneOf(name, say('The condition'), ast.CONDITION_NAMES);
      return condition && { kind: 'condition', condition };
    });
  });

  readonly trainsAt = this.RULE('trainsAt', (): Line => {
    const kit = this.SUBRULE(this.name);
    const more = this.SUBRULE(this.clauses, { ARGS: [['on', 'from']] });
    return this.ACTION(() =>
      this.nameEnds(kit)
        ? { kind: 'trains-at', kit, on: more.on?.days ?? [], from: more.from ?? null }
        : null,
    );
  });

  readonly curve = this.RULE('curve', (): Line => {
    const name = this.SUBRULE(this.name);
    const more = this.SUBRULE(this.clauses, { ARGS: [['from']] });
    return this.ACTION(() => {
      const curve = this.oneOf(name, say('The curve'), ast.CURVE_NAMES);
      return curve && { kind: 'curve', curve, from: more.from ?? null };
    });
  });

  readonly rounding = this.RULE('rounding', (): Line => {
    const name = this.SUBRULE(this.name);
    return this.ACTION(() => {
      const rounding = this.oneOf(name, say('The rounding'), ['down', 'nearest'] as const);
      return rounding && { kind: 'rounding', rounding };
    });
  });

  readonly care = this.RULE('care', (): Line => {
    const text = this.SUBRULE(this.text);
    return { kind: 'care', text };
  });

  private readonly signOff = this.RULE('signOff', (): ast.SignOffNode | null => {
    const stage = this.CONSUME(token('Stage'));
    const pattern = this.CONSUME(token('Word'));
    const date = this.SUBRULE(this.date);
    return this.ACTION(() => {
      const span = spanOf(pattern);
      const name = values.nameAt(this.source, span.start, span.end);
      const known = this.oneOf(name, say('The pattern'), [...ast.PATTERN_NAMES, 'all'] as const);
      if (known === null || date === null) return null;
      const value = stage.image.toLowerCase() as ast.StageName;
      return {
        stage: { value, span: spanOf(stage) },
        pattern: known,
        date,
        span: { start: stage.startOffset, end: date.span.end },
      };
    });
  });

  readonly ready = this.RULE('ready', (): Line => {
    const signOffs: ast.SignOffNode[] = [];
    this.AT_LEAST_ONE_SEP({
      SEP: token('Comma'),
      DEF: () => {
        const one = this.SUBRULE(this.signOff);
        this.ACTION(() => {
          if (one !== null) signOffs.push(one);
        });
      },
    });
    return { kind: 'ready', signOffs };
  });

  readonly max = this.RULE('max', (): Line => {
    const movement = this.SUBRULE1(this.name);
    this.CONSUME(token('Comma'));
    const load = this.OR1([
      { ALT: () => this.CONSUME(token('MassWord')) },
      { ALT: () => this.CONSUME(token('Bodyweight')) },
    ]);
    const times = this.CONSUME(token('Times'));
    const effort = this.OPTION1(() =>
      this.OR2([
        { ALT: () => this.ACTION1(reserveItem, this.CONSUME(token('Reserve'))) },
        {
          ALT: () => {
            const rpe = this.CONSUME(token('Rpe'));
            const value = this.OR3([
              { ALT: () => this.CONSUME(token('Integer')) },
              { ALT: () => this.CONSUME(token('Decimal')) },
            ]);
            return this.ACTION(() => rpeItem(rpe, value, this.report));
          },
        },
      ]),
    );
    this.SUBRULE1(this.comma);
    const date = this.SUBRULE1(this.date);
    const at = this.OPTION2(() => {
      this.SUBRULE2(this.comma);
      this.CONSUME(token('At'));
      return this.SUBRULE2(this.name);
    });
    const from = this.OPTION3(() => {
      this.SUBRULE3(this.comma);
      this.CONSUME(token('From'));
      return this.SUBRULE2(this.date);
    });
    return this.ACTION(() => {
      // A date that does not exist was reported; without it the line would count too early.
      if (from === null) return null;
      return this.maxLine(movement, load, times, effort, { date, at: at ?? null, from: from ?? null });
    });
  });

  /** An action with one word, not run while the rules are being recorded. */
  private ACTION1(
    read: (part: IToken, report: values.Report) => ast.CellItem | null,
    part: IToken,
  ): ast.CellItem | null {
    return this.ACTION(() => read(part, this.report));
  }

  private maxLine(
    movement: ast.Name,
    load: IToken,
    times: IToken,
    effort: ast.CellItem | null | undefined,
    { date, at, from }: { date: ast.DateNode | null; at: ast.Name | null; from: ast.DateNode | null },
  ): Line {
    const reps = values.countOf(
      Number(times.image.slice(1)),
      spanOf(times),
      times.image,
      say('Reps'),
      1,
      99,
      this.report,
    );
    const bodyweight = load.tokenType.name === 'Bodyweight';
    const span = spanOf(load);
    let mass: ast.Mass | null = null;
    if (!bodyweight) mass = values.positiveMass(load, this.report);
    else if (load.image.length > 2)
      mass = values.massOf(load.image.slice(2), { start: span.start + 2, end: span.end }, this.report);
    if (reps === null || date === null || effort === null || (!bodyweight && mass === null)) return null;
    // Without a reserve the set counts as all that was there, which can only make the max smaller.
    const reserve = effort?.kind === 'reserve' ? effort.reserve : 0;
    return { kind: 'max', movement, load: mass, bodyweight, reps, reserve, date, at, from };
  }

  readonly avoid = this.RULE('avoid', (): Line => {
    const what = this.SUBRULE(this.name);
    const more = this.SUBRULE(this.clauses, { ARGS: [['from', 'until', 'reason']] });
    return this.ACTION(() =>
      this.nameEnds(what)
        ? {
            kind: 'avoid',
            what,
            from: more.from ?? null,
            until: more.until ?? null,
            reason: more.reason ?? null,
          }
        : null,
    );
  });

  readonly swap = this.RULE('swap', (): Line => {
    const movement = this.SUBRULE1(this.name);
    this.CONSUME(token('Comma'));
    this.CONSUME(token('To'));
    const to = this.SUBRULE2(this.name);
    const more = this.SUBRULE(this.clauses, { ARGS: [['from', 'until', 'reason', 'items']] });
    return this.ACTION(() => {
      if (!this.nameEnds(to)) return null;
      const { from = null, until = null, reason = null } = more;
      return { kind: 'swap', movement, to, dose: this.swapDose(more), from, until, reason };
    });
  });

  private swapDose(more: Clauses): ast.GroupNode | null {
    const items = more.items ?? [];
    const first = items[0];
    const last = items[items.length - 1];
    if (first === undefined || last === undefined) return null;
    const group = { items, span: { start: first.span.start, end: last.span.end } };
    checkGroup(group, 0, this.report);
    for (const item of items) {
      if (
        ['change-percent', 'change-mass', 'step', 'weekly', 'left-out', 'stop', 'week', 'test'].includes(
          item.kind,
        )
      ) {
        this.report(
          problem(
            'syntax',
            item.span,
            say(
              'A swap has sets, reps, effort or a load of its own, such as `3x8 r4`; changes stay in the program.',
            ),
          ),
        );
      }
    }
    return group;
  }

  readonly follows = this.RULE('follows', (): Unplaced<ast.FollowsNode> | null => {
    const program = this.SUBRULE(this.name);
    const more = this.SUBRULE(this.clauses, {
      ARGS: [['from', 'on', 'everyDays', 'supervised', 'alongside']],
    });
    return this.ACTION(() => this.followsLine(program, more));
  });

  private followsLine(program: ast.Name, more: Clauses): Unplaced<ast.FollowsNode> | null {
    if (!this.nameEnds(program)) return null;
    if (more.from === undefined) {
      this.report(
        problem(
          'syntax',
          program.span,
          say('`follows:` needs the first day. Write `, from 2026-12-07` after the program.'),
        ),
      );
      return null;
    }
    if (more.from === null) return null;
    const { everyTime } = more;
    if (more.on !== undefined && more.everyDays !== undefined) {
      const span = (more.on.days[0] as ast.Word).span;
      this.report(
        problem(
          'item-conflict',
          span,
          say('Training days are either weekdays (`on mon thu`) or `every 3 days`, not both.'),
        ),
      );
    }
    return {
      kind: 'follows',
      program,
      from: more.from,
      on: more.on?.days ?? [],
      times: everyTime ? WEEK.map((day) => ({ day, ...everyTime })) : (more.on?.times ?? []),
      everyDays: more.everyDays ?? null,
      supervised: more.supervised ?? false,
      alongside: more.alongside ?? false,
    };
  }

  readonly away = this.RULE('away', (): Line => {
    const from = this.SUBRULE1(this.date);
    this.CONSUME(token('To'));
    const to = this.SUBRULE2(this.date);
    const backPercent: ast.Num[] = [];
    let keepDates = false;
    this.MANY(() => {
      this.SUBRULE(this.comma);
      this.OR([
        {
          ALT: () => {
            this.CONSUME(token('Back'));
            this.CONSUME(token('At'));
            this.AT_LEAST_ONE(() => {
              const part = this.CONSUME(token('Percent'));
              this.ACTION(() => {
                const share = values.percentOf(part, 100, this.report);
                if (share !== null) backPercent.push(share);
              });
            });
          },
        },
        {
          ALT: () => {
            this.CONSUME(token('Keep'));
            this.CONSUME(token('Dates'));
            keepDates = true;
          },
        },
      ]);
    });
    return this.ACTION(() => {
      if (from === null || to === null) return null;
      if (to.iso < from.iso) {
        this.report(
          problem(
            'no-such-date',
            to.span,
            say`The last day away lies before the first. Found ${from.iso} to ${to.iso}.`,
          ),
        );
        return null;
      }
      return { kind: 'away', from, to, backPercent, keepDates };
    });
  });

  readonly allow = this.RULE('allow', (): Unplaced<ast.AllowNode> | null => {
    const code = this.CONSUME(NamePart);
    const reason = this.OPTION(() => {
      this.SUBRULE(this.comma);
      return this.SUBRULE(this.text);
    });
    return this.ACTION(() => {
      if (reason !== undefined && reason.text.trim() !== '') {
        return { kind: 'allow', code: { value: code.image.toLowerCase(), span: spanOf(code) }, reason };
      }
      this.report(
        problem(
          'reason-missing',
          reason?.span ?? spanOf(code),
          say`\`allow\` needs its reason. Write it in quotation marks: \`allow: ${code.image.toLowerCase()} "why"\`.`,
        ),
      );
      return null;
    });
  });

  readonly members = this.RULE('members', (): ast.Name[] => this.SUBRULE(this.names));
}
