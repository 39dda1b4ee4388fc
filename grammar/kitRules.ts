import type { IToken } from 'chevrotain';
import * as ast from './ast.js';
import { ClientRules } from './clientRules.js';
import { problem, shown } from './messages.js';
import { say } from './say.js';
import type { Unplaced } from './statementRules.js';
import { spanOf, token } from './tokens.js';
import * as values from './values.js';

/** The statements of kits and movements. */
export abstract class KitRules extends ClientRules {
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

  private stockNode(
    first: IToken,
    last: IToken | undefined,
    step: IToken | undefined,
    times: IToken | undefined,
  ): ast.StockNode | null {
    const from = values.positiveMass(first, this.report);
    if (from === null) return null;
    const end = spanOf(step ?? times ?? first).end;
    const span = { start: first.startOffset, end };
    if (last !== undefined && step !== undefined) {
      const to = values.positiveMass(last, this.report);
      const by = values.positiveMass(step, this.report);
      if (to === null || by === null) return null;
      if (to.kg >= from.kg && (to.kg - from.kg) / by.kg <= 1000) return { kind: 'range', from, to, by, span };
      this.report(
        problem(
          'out-of-range',
          span,
          say`A range goes from the lightest to the heaviest in steps. Found ${shown(this.source.slice(span.start, span.end))}.`,
        ),
      );
      return null;
    }
    if (times === undefined) return { kind: 'pieces', mass: from, count: null, span };
    const counted = values.countOf(
      Number(times.image.slice(1)),
      spanOf(times),
      times.image,
      say('Counts'),
      1,
      99,
      this.report,
    );
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
        this.report(
          problem(
            'unit-missing',
            one.span,
            say('Say how many of these plates there are, both sides together, such as `5kg x4`.'),
          ),
        );
      }
    });
    return read;
  });

  readonly machine = this.RULE(
    'machine',
    (): { stock: ast.StockNode[]; fitsCm: readonly [number, number] | null } => {
      const stock = this.SUBRULE(this.stocks);
      const fitsCm = this.OPTION(() => {
        this.SUBRULE(this.comma);
        this.CONSUME(token('Fits'));
        const low = this.OR1([
          { ALT: () => this.CONSUME1(token('Length')) },
          { ALT: () => this.CONSUME1(token('Metres')) },
        ]);
        this.CONSUME(token('To'));
        const high = this.OR2([
          { ALT: () => this.CONSUME2(token('Length')) },
          { ALT: () => this.CONSUME2(token('Metres')) },
        ]);
        return this.ACTION((): readonly [number, number] => {
          const pair = [values.centimetresOf(low.image), values.centimetresOf(high.image)] as const;
          if (pair[0] > pair[1]) {
            this.report(
              problem(
                'out-of-range',
                { start: low.startOffset, end: spanOf(high).end },
                say('Write the shorter height first: `fits 165cm to 190cm`.'),
              ),
            );
          }
          return pair;
        });
      });
      return { stock, fitsCm: fitsCm ?? null };
    },
  );

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
      this.report(
        problem(
          'out-of-range',
          { start: last.startOffset, end: spanOf(step).end },
          say('The step is larger than the whole pack. Write it like `to 16kg by 1kg`.'),
        ),
      );
      return null;
    });
  });

  readonly bands = this.RULE('bands', (): ast.Name[] => {
    const read = this.SUBRULE(this.names);
    this.ACTION(() => {
      for (const name of read) {
        if (!/\s/.test(name.text)) continue;
        this.report(
          problem(
            'syntax',
            name.span,
            say`The name of a band is one word. Found ${shown(name.text)}; put a comma between bands.`,
          ),
        );
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
          return this.ACTION(
            (): Unplaced<ast.MovementLine> => ({
              kind: 'with',
              equipment: { value: 'machine', span: spanOf(part) },
              machine,
            }),
          );
        },
      },
      {
        ALT: () => {
          const name = this.SUBRULE2(this.name);
          return this.ACTION((): Unplaced<ast.MovementLine> | null => {
            const equipment = this.oneOf(name, say('The equipment'), ast.EQUIPMENT_NAMES);
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
}
