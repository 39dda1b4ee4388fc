import type { StageName } from '../../../../../grammar/index.js';
import { later, said } from '../../../../../grammar/say.js';
import type { ResolvedCell, ResolvedGroup } from '../../model.js';
import type { RuleOption } from '../../ruleForm.js';
import { isLowerBody } from './muscles.js';

/** The most of all: the upper end of the published 2 to 10 %. */
export const MOST_PERCENT: RuleOption = {
  key: 'maxPercent',
  default: 10,
  least: 1,
  most: 30,
  what: 'most that any load may rise in a week, in per cent',
};

const WORDS: Readonly<Record<StageName, { readonly lower: string; readonly upper: string }>> = {
  learn: { lower: later('learning work of the lower body'), upper: later('learning work of the upper body') },
  load: { lower: later('load work of the lower body'), upper: later('load work of the upper body') },
  heavy: { lower: later('heavy work of the lower body'), upper: later('heavy work of the upper body') },
};

/**
 * ACSM 2009 gives 2 to 10 %, the lower end for small muscles and the upper end for large ones. How that is divided
 * over body and stage is common practice, no source: learning work keeps four and more in reserve, heavy work little.
 */
const LIMITS: Readonly<Record<StageName, { readonly lower: RuleOption; readonly upper: RuleOption }>> = {
  learn: { lower: limit('learn', 'lower', 10), upper: limit('learn', 'upper', 10) },
  load: { lower: limit('load', 'lower', 10), upper: limit('load', 'upper', 8) },
  heavy: { lower: limit('heavy', 'lower', 8), upper: limit('heavy', 'upper', 7) },
};

function limit(stage: StageName, body: 'lower' | 'upper', percent: number): RuleOption {
  return {
    key: `${stage}${body === 'lower' ? 'Lower' : 'Upper'}Percent`,
    default: percent,
    least: 1,
    most: 30,
    what: `most that a load may rise in a week in ${WORDS[stage][body]}, in per cent`,
  };
}

export const JUMP_OPTIONS: readonly RuleOption[] = [
  MOST_PERCENT,
  ...Object.values(LIMITS).flatMap(({ lower, upper }) => [lower, upper]),
];

/** What a load may rise in a week, as a share, by the stage of the work and the part of the body. */
export interface JumpLimit {
  readonly share: number;
  /** `learning work of the upper body`. */
  readonly words: string;
}

/** The limit for a group; `option` gives the number that is set. */
export function jumpLimit(
  cell: ResolvedCell,
  group: ResolvedGroup,
  option: (option: RuleOption) => number,
): JumpLimit {
  const lower = isLowerBody(cell.movement?.pattern ?? 'other');
  const own = lower ? LIMITS[group.stage].lower : LIMITS[group.stage].upper;
  return {
    share: Math.min(option(own), option(MOST_PERCENT)) / 100,
    words: said(WORDS[group.stage][lower ? 'lower' : 'upper']),
  };
}
