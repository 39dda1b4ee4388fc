import type { ClientLine } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import type { Client, FindingFix, Place } from '../model.js';
import { formatNumber } from '../numbers.js';
import type { RawFinding, Rule, RuleContext, RuleOption } from '../ruleForm.js';
import { onLine } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';

const CODE = 'body-unlikely';
const MIN_HEIGHT: RuleOption = {
  key: 'minHeightCm',
  default: 120,
  least: 50,
  most: 170,
  what: 'smallest height that is taken without a question, in centimetres',
};
const MAX_HEIGHT: RuleOption = {
  key: 'maxHeightCm',
  default: 215,
  least: 170,
  most: 275,
  what: 'largest height that is taken without a question, in centimetres',
};
const MIN_MASS: RuleOption = {
  key: 'minMassKg',
  default: 30,
  least: 10,
  most: 60,
  what: 'smallest body mass that is taken without a question, in kilograms',
};
const MAX_MASS: RuleOption = {
  key: 'maxMassKg',
  default: 250,
  least: 80,
  most: 650,
  what: 'largest body mass that is taken without a question, in kilograms',
};
/** Mass over height squared, kg/m². Far outside of what adults who train have; it judges numbers, not people. */
const INDEX_RANGE = [12, 70] as const;

type Measure<Kind extends 'height' | 'mass'> = Extract<ClientLine, { kind: Kind }> & {
  readonly place: Place;
};

function linesOf<Kind extends 'height' | 'mass'>(client: Client, kind: Kind): readonly Measure<Kind>[] {
  return client.nodes.flatMap(({ file, node }) =>
    node.lines.flatMap((line) =>
      line.kind === kind ? [{ ...line, place: { file, span: line.span } } as Measure<Kind>] : [],
    ),
  );
}

function isIn(value: number, [least, most]: readonly [number, number]): boolean {
  return value >= least && value <= most;
}

/** What is unlikely in a pair of height and mass, or null. The height may be unknown, and so may the mass. */
function unlikely(heightCm: number | null, massKg: number | null, context: RuleContext): string | null {
  const heights = [context.option(CODE, MIN_HEIGHT), context.option(CODE, MAX_HEIGHT)] as const;
  const masses = [context.option(CODE, MIN_MASS), context.option(CODE, MAX_MASS)] as const;
  if (heightCm !== null && !isIn(heightCm, heights)) {
    return say`a height of ${formatNumber(heightCm)} cm is outside ${heights[0]} to ${heights[1]} cm.`;
  }
  if (massKg !== null && !isIn(massKg, masses)) {
    return say`a body mass of ${formatNumber(massKg, 1)} kg is outside ${masses[0]} to ${masses[1]} kg.`;
  }
  if (heightCm === null || massKg === null || isIn(indexOf(heightCm, massKg), INDEX_RANGE)) return null;
  return say`${formatNumber(heightCm)} cm and ${formatNumber(massKg, 1)} kg do not go together.`;
}

function indexOf(heightCm: number, massKg: number): number {
  return massKg / (heightCm / 100) ** 2;
}

/** Puts each number on the other's line. */
function exchange(height: Measure<'height'>, mass: Measure<'mass'>): FindingFix {
  return {
    title: say`Exchange the two: ${formatNumber(mass.mass.kg)}cm and ${formatNumber(height.cm.value)}kg`,
    safe: false,
    edits: [
      { file: height.place.file, span: height.cm.span, newText: `${formatNumber(mass.mass.kg)}cm` },
      { file: mass.place.file, span: mass.mass.span, newText: `${formatNumber(height.cm.value)}kg` },
    ],
  };
}

const files = (lines: readonly string[]) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', lines),
    winter('Keel, 1 week', { Lower: ['bodyweight squat: 2x8'] }),
  );

export const bodyUnlikely: Rule = {
  code: CODE,
  title: 'A height or body mass that looks like a slip',
  severity: 'warning',
  options: [MIN_HEIGHT, MAX_HEIGHT, MIN_MASS, MAX_MASS],
  what: 'The height of a client is under 120 or over 215 cm, a body mass under 30 or over 250 kg, or the two do not go together: swapped lines, pounds taken for kilograms, a lost digit.',
  why: 'Loads of bodyweight movements, machine settings and checks of written loads rest on these numbers.',
  source:
    'The limits are common practice, no source; they are far outside of the women of a measured data set (Davis, R package carData 3.0.5: 148 to 178 cm, 39 to 78 kg, one row swapped) and of US adults (Fryar et al., Vital Health Stat 3(46), 2021).',
  example: files(['height: 57cm', 'mass: 166kg, 2026-11-01']),
  better: files(['height: 166cm', 'mass: 57kg, 2026-11-01']),
  fix: 'Measure again, or correct the line. Where the two were swapped the quick fix exchanges them.',
  checkPlan(plan, _world, context) {
    const { client } = plan;
    const height = linesOf(client, 'height')[0];
    const heightCm = height?.cm.value ?? null;
    const masses = linesOf(client, 'mass');
    const tell = (place: Place, words: string, fixes: readonly FindingFix[], swapped: boolean): RawFinding =>
      onLine(plan, place, {
        headline: say('A height or body mass looks like a slip.'),
        detail: `${client.name}: ${words}`,
        advice: swapped ? say('They look swapped.') : say('Measure again, or correct the line.'),
        fixes,
      });
    const alone = unlikely(heightCm, null, context);
    if (height && heightCm !== null && alone !== null) {
      const only = masses.length === 1 ? masses[0] : undefined;
      const swapped = only !== undefined && unlikely(only.mass.kg, heightCm, context) === null;
      return [tell(height.place, alone, swapped ? [exchange(height, only)] : [], swapped)];
    }
    return masses.flatMap((line) => {
      const words = unlikely(heightCm, line.mass.kg, context);
      if (words === null) return [];
      const swapped = height !== undefined && unlikely(line.mass.kg, heightCm, context) === null;
      return [tell(line.place, words, [], swapped)];
    });
  },
};
