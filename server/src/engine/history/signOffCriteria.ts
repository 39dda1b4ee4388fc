/** When a sign-off is offered: the criteria, their defaults, and how a coach sets them. */
import { z } from 'zod';
import type { StageName } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import { formatNumber } from '../numbers.js';
import { nearestName } from '../rules/shared/nearest.js';

/** What has to be met before the sign-off of a stage is offered. All defaults are common practice, no source. */
export interface SignOffCriteria {
  readonly stage: StageName;
  /** Sessions logged with work of the pattern. */
  readonly sessions: number;
  /** Weeks since the first of them. */
  readonly weeks: number;
  /** Days up to now without pain in the log, and the score from which it counts. */
  readonly painFreeDays: number;
  readonly painFrom: number;
  /** Log notes that speak of technique since the last sign-off. */
  readonly techniqueNotes: number;
  /** Words by which a note speaks of technique, in any language, in small letters. */
  readonly techniqueWords: readonly string[];
}

export const DEFAULT_TECHNIQUE_WORDS: readonly string[] = ['technique', 'form'];

/**
 * Common practice, no source: eight sessions over four weeks before loads, and half a year (the lower end of the six
 * to eight months that are usual) before heavy work. Technique notes are not asked for unless a coach sets a number.
 */
export const DEFAULT_SIGN_OFF: readonly SignOffCriteria[] = [
  defaults('load', 8, 4),
  defaults('heavy', 40, 26),
];

function defaults(stage: StageName, sessions: number, weeks: number): SignOffCriteria {
  const rest = { painFreeDays: 28, painFrom: 3, techniqueNotes: 0, techniqueWords: DEFAULT_TECHNIQUE_WORDS };
  return { stage, sessions, weeks, ...rest };
}

type NumberKey = Exclude<keyof SignOffCriteria, 'stage' | 'techniqueWords'>;

export interface SignOffOption {
  readonly key: NumberKey;
  readonly least: number;
  readonly most: number;
  readonly what: string;
}

/** What can be set for a stage. Pain is always looked at: an offer after a painful week would be a wrong one. */
export const SIGN_OFF_OPTIONS: readonly SignOffOption[] = [
  { key: 'sessions', least: 1, most: 500, what: 'Sessions logged with work of the pattern' },
  { key: 'weeks', least: 0, most: 260, what: 'Weeks since the first of them' },
  { key: 'techniqueNotes', least: 0, most: 100, what: 'Log notes that speak of technique; 0 asks for none' },
  { key: 'painFreeDays', least: 7, most: 365, what: 'Days up to now without pain in the log' },
  { key: 'painFrom', least: 1, most: 4, what: 'The score out of ten from which a pain counts' },
];

export const SIGN_OFF_STAGES = ['load', 'heavy'] as const;
type SettableStage = (typeof SIGN_OFF_STAGES)[number];

/** What a coach set; what is missing has its default. */
export type SignOffSettings = {
  readonly [stage in SettableStage]?: Readonly<Partial<Record<NumberKey, number>>>;
} & { readonly techniqueWords?: readonly string[] };

function stageShape(stage: SettableStage) {
  const usual = DEFAULT_SIGN_OFF.find((each) => each.stage === stage) as SignOffCriteria;
  return z.strictObject(
    Object.fromEntries(
      SIGN_OFF_OPTIONS.map(({ key, least, most, what }) => [
        key,
        z
          .number()
          .min(least)
          .max(most)
          .optional()
          .describe(`${what} (${formatNumber(usual[key])}: common practice, no source).`),
      ]),
    ),
  );
}

const wordsShape = z.array(z.string().trim().min(1)).min(1);

/** The shape of `signOff` in `stave.json` and in the editor's settings. */
export function signOffShape() {
  return z.strictObject({
    load: stageShape('load').optional().describe('When the sign-off of `load` is offered.'),
    heavy: stageShape('heavy').optional().describe('When the sign-off of `heavy` is offered.'),
    techniqueWords: wordsShape
      .optional()
      .describe('Words by which a note in a log speaks of technique ("technique", "form").'),
  });
}

export interface ReadSignOff {
  readonly settings: SignOffSettings;
  /** What could not be taken, in words. It keeps its default. */
  readonly problems: readonly string[];
}

/** Reads the value of `signOff`. What is right in it counts, whatever stands beside it. Never throws. */
export function readSignOff(value: unknown): ReadSignOff {
  if (!isRecord(value))
    return {
      settings: {},
      problems: [say('"signOff" has to be an object, like { "load": { "sessions": 12 } }.')],
    };
  const problems: string[] = [];
  const settings: Record<string, unknown> = {};
  for (const [key, set] of Object.entries(value)) {
    const stage = SIGN_OFF_STAGES.find((each) => each === key);
    if (stage) {
      const own = readStage(stage, set, problems);
      if (Object.keys(own).length > 0) settings[stage] = own;
    } else if (key === 'techniqueWords') {
      const words = wordsShape.safeParse(set).data;
      if (words) settings.techniqueWords = words.map((word) => word.toLowerCase());
      else problems.push(say('"techniqueWords" has to be a list of words, like ["technique", "form"].'));
    } else {
      problems.push(
        say`"signOff" has no "${key}".${meant(key, [...SIGN_OFF_STAGES, 'techniqueWords']) || say(' There is "load", "heavy" and "techniqueWords".')}`,
      );
    }
  }
  return { settings: settings as SignOffSettings, problems };
}

function readStage(stage: SettableStage, value: unknown, problems: string[]): Record<string, number> {
  const found: Record<string, number> = {};
  if (!isRecord(value)) {
    problems.push(say`"${stage}" of "signOff" has to be an object, like { "sessions": 12 }.`);
    return found;
  }
  for (const [key, set] of Object.entries(value)) {
    const option = SIGN_OFF_OPTIONS.find((each) => each.key === key);
    if (!option) {
      const known = SIGN_OFF_OPTIONS.map((each) => each.key);
      problems.push(
        say`"${stage}" of "signOff" has no "${key}".${meant(key, known) || say` There is ${known.map((each) => `"${each}"`).join(', ')}.`}`,
      );
    } else if (typeof set === 'number' && set >= option.least && set <= option.most) found[key] = set;
    else {
      problems.push(
        say`"${key}" of "${stage}" has to be a number from ${formatNumber(option.least)} to ${formatNumber(option.most)}; found ${JSON.stringify(set)}.`,
      );
    }
  }
  return found;
}

/** Both together; what `over` says of one number replaces what `under` says of it. */
export function mergeSignOff(
  under: SignOffSettings | undefined,
  over: SignOffSettings | undefined,
): SignOffSettings | undefined {
  if (!under || !over) return over ?? under;
  return {
    ...under,
    ...over,
    load: { ...under.load, ...over.load },
    heavy: { ...under.heavy, ...over.heavy },
  };
}

/** The criteria that hold under some settings, lowest stage first. */
export function criteriaUnder(settings: SignOffSettings | undefined): readonly SignOffCriteria[] {
  if (!settings) return DEFAULT_SIGN_OFF;
  const { techniqueWords = DEFAULT_TECHNIQUE_WORDS } = settings;
  return DEFAULT_SIGN_OFF.map((usual) => ({
    ...usual,
    ...settings[usual.stage as SettableStage],
    techniqueWords,
  }));
}

function meant(word: string, names: readonly string[]): string {
  const near = nearestName(
    word.toLowerCase(),
    names.map((key) => ({ key: key.toLowerCase(), name: key })),
  );
  return near ? say` Did you mean "${near.name}"?` : '';
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return value !== null && typeof value === 'object' && !Array.isArray(value);
}
