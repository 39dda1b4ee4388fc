import { say } from '../../../../grammar/say.js';
import type { ClientPlan, FindingFix } from '../model.js';
import { formatNumber, formatPercent } from '../numbers.js';
import type { RawFinding, Rule, RuleContext, RuleOption } from '../ruleForm.js';
import {
  backEdit,
  backText,
  type FewerSets,
  fewerSetLines,
  fullSets,
  type Length,
  type Return,
  returnsOf,
} from './shared/comeback.js';
import { onLine } from './shared/found.js';
import { BOATHOUSE, BOX_SQUAT, workspace } from './shared/sample.js';
import { countOf, listOf, movementText } from './shared/words.js';

const CODE = 'back-too-fast';
const SHORT_DAYS: RuleOption = {
  key: 'shortDays',
  default: 14,
  least: 7,
  most: 28,
  what: 'days away from which on the first week back is lighter',
};
const LONG_DAYS: RuleOption = {
  key: 'longDays',
  default: 28,
  least: 14,
  most: 56,
  what: 'days away from which on the first week back is much lighter, with half the sets',
};
const LONGEST_DAYS: RuleOption = {
  key: 'longestDays',
  default: 56,
  least: 28,
  most: 182,
  what: 'days away beyond which the start is a new one',
};
const SHORT_PERCENT: RuleOption = {
  key: 'shortPercent',
  default: 90,
  least: 50,
  most: 95,
  what: 'most of the target in the first week after a short absence, in per cent',
};
const LONG_PERCENT: RuleOption = {
  key: 'longPercent',
  default: 80,
  least: 40,
  most: 95,
  what: 'most of the target in the first week after a long absence, in per cent',
};
const SETS_PERCENT: RuleOption = {
  key: 'setsPercent',
  default: 50,
  least: 20,
  most: 100,
  what: 'most of the former sets in the first week after a long absence, in per cent',
};
const LONG_RESERVE: RuleOption = {
  key: 'longReserve',
  default: 4,
  least: 1,
  most: 6,
  what: 'reps in reserve in the first week after a long absence, where a fixed load cannot be lowered by a share',
};
/** Shares are written in whole per cent. */
const NOISE = 0.001;

interface Limits {
  readonly length: Length;
  readonly percent: number;
  readonly fewer: FewerSets;
}

function limitsFor(days: number, context: RuleContext): Limits {
  const of = (option: RuleOption) => context.option(CODE, option);
  const fewer = { share: of(SETS_PERCENT) / 100, reserve: of(LONG_RESERVE) };
  if (days > of(LONGEST_DAYS)) return { length: 'longest', percent: of(LONG_PERCENT), fewer };
  if (days >= of(LONG_DAYS)) return { length: 'long', percent: of(LONG_PERCENT), fewer };
  return { length: 'short', percent: of(SHORT_PERCENT), fewer };
}

/** For half there is a word of its own. */
const HALF = 0.5;

function tooManySets(where: string, movements: string, { share }: FewerSets): string {
  return share === HALF
    ? say`${where} with more than half of the former sets of ${movements}.`
    : say`${where} with more than ${formatPercent(share, 0)} of the former sets of ${movements}.`;
}

function adviceFor({ length, percent, fewer }: Limits): string {
  const less = formatNumber(100 - percent);
  if (length === 'longest') return say('Start over lightly and sign the patterns off again before loading.');
  if (length === 'long') {
    const left = formatNumber(fewer.reserve);
    return fewer.share === HALF
      ? say`Take about ${less} % off, leave at least ${left} in reserve and do half the sets in the first week.`
      : say`Take about ${less} % off, leave at least ${left} in reserve and do ${formatPercent(fewer.share, 0)} of the sets in the first week.`;
  }
  return say`Take about ${less} % off, which leaves one more in reserve or better, in the first week.`;
}

/** The share of the target that the first loaded work back has; null where nothing of the first week is loaded. */
function shareOf({ firstWeek }: Return): number | null {
  const cells = firstWeek.flatMap((session) => session.cells);
  const loaded = cells.find(({ groups }) => groups.some(({ loadKg }) => loadKg !== null));
  return loaded ? loaded.backShare : null;
}

function fixesFor(
  plan: ClientPlan,
  back: Return,
  limits: Limits,
  isShareHigh: boolean,
): readonly FindingFix[] {
  const text = backText(back, limits.length, limits.percent);
  const share = backEdit(plan, back.away, text);
  const lines =
    limits.length === 'short' ? [] : fewerSetLines(back, fullSets(back, plan, limits.fewer), limits.fewer);
  const section = plan.client.nodes[0];
  const fixes: FindingFix[] = isShareHigh
    ? [{ title: say`Write "${text}"`, safe: false, edits: [share] }]
    : [];
  if (lines.length === 0 || !section) return fixes;
  const end = section.node.span.end;
  const halves = {
    file: section.file,
    span: { start: end, end },
    newText: lines.map((line) => `\n  ${line}`).join(''),
  };
  // Both at the end of one section: one edit, so that nothing depends on their order.
  const atOnePlace = halves.file === share.file && share.span.start === end && share.span.end === end;
  const edits = !isShareHigh
    ? [halves]
    : atOnePlace
      ? [{ ...share, newText: share.newText + halves.newText }]
      : [share, halves];
  const half: FindingFix = {
    title: isShareHigh
      ? say`Write "${text}" and fewer sets in the first week (${countOf(lines.length, 'swap line')})`
      : say`Fewer sets in the first week (${countOf(lines.length, 'swap line')})`,
    safe: false,
    edits,
  };
  return [half, ...fixes];
}

function findingOf(plan: ClientPlan, back: Return, limits: Limits): RawFinding | null {
  const { away, days, first } = back;
  const share = shareOf(back);
  const where = say`${plan.client.name}: ${countOf(days, 'day')} away, back on ${first.date} (week ${first.week} of "${first.block.name}")`;
  const tell = (said: { headline: string; detail: string; severity?: 'info' }, isShareHigh: boolean) =>
    onLine(plan, away.place, {
      ...said,
      advice: say`${adviceFor(limits)} For example "${backText(back, limits.length, limits.percent)}".`,
      fixes: fixesFor(plan, back, limits, isShareHigh),
    });
  if (share === null) return null;
  if (share === 1)
    return tell(
      {
        headline: say('The first week back starts where it stopped.'),
        detail: say`${where} with full targets.`,
      },
      true,
    );
  if (share > limits.percent / 100 + NOISE)
    return tell(
      {
        headline: say('The first week back is lighter by little.'),
        detail: say`${where} with ${formatPercent(share, 0)} of the targets; ${formatNumber(limits.percent)} % or less is usual after so long.`,
        severity: 'info',
      },
      true,
    );
  const full = limits.length === 'short' ? [] : fullSets(back, plan, limits.fewer);
  if (full.length === 0) return null;
  return tell(
    {
      headline: say('The first week back has as many sets as before.'),
      detail: tooManySets(where, listOf([...new Set(full.map(movementText))]), limits.fewer),
      severity: 'info',
    },
    false,
  );
}

const files = (back: string) =>
  workspace(
    BOATHOUSE,
    BOX_SQUAT,
    `client Heron
  trains at: Boathouse
  ready: load squat 2026-06-01
  max: box squat, 47.5kg x5 r2, 2026-11-30
  away: 2026-12-12 to 2026-12-27${back}
  follows: Winter, from 2026-12-07, on mon`,
    `program Winter

block Keel, 3 weeks
day Lower
  box squat: 3x8 r3`,
  );

export const backTooFast: Rule = {
  code: CODE,
  title: 'A return that starts where it stopped',
  severity: 'warning',
  options: [SHORT_DAYS, LONG_DAYS, LONGEST_DAYS, SHORT_PERCENT, LONG_PERCENT, SETS_PERCENT, LONG_RESERVE],
  what: 'After two weeks away or more, the first session back uses the full target. As information: it uses more than 90 % after two to three weeks or more than 80 % after four and more, or after four weeks the first week has more than half of the former sets.',
  why: 'Tissue loses tolerance sooner than the max falls. The first week back is when people get very sore or hurt.',
  source:
    'General reviews: strength is held about 3 to 4 weeks and then falls (from memory); older women lost functional gains within a month off (e-jer.org 2013600431, abstract). The steps are common practice, no source: after 2 to 3 weeks 10 % less, which leaves at least one more in reserve; after 4 to 8 weeks 20 % less, at least four in reserve and half the sets; after longer a new start.',
  example: files(''),
  better: files(', back at 90%'),
  fix: 'Say how the client comes back: "away: DATE to DATE, back at 80% 90%". The quick fix writes it, with the steps for the length of the absence; a second one adds a "swap:" line with fewer sets for each row of the first week. Both only take load and sets away.',
  caution:
    'After illness, surgery, pregnancy or injury a qualified professional decides when and how to start again. Times, distances, jumps and sprints are not lowered by "back at": shorten them by hand.',
  checkPlan: (plan, _world, context) =>
    returnsOf(plan, context.option(CODE, SHORT_DAYS)).flatMap(
      (back) => findingOf(plan, back, limitsFor(back.days, context)) ?? [],
    ),
};
