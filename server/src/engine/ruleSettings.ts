import { z } from 'zod';
import { PROBLEM_CODES } from '../../../grammar/index.js';
import { say } from '../../../grammar/say.js';
import { mergeSignOff, readSignOff, type SignOffSettings, signOffShape } from './history/signOffCriteria.js';
import type { Severity } from './model.js';
import { formatNumber } from './numbers.js';
import type { Rule, RuleOption } from './ruleForm.js';
import { RULES } from './rules/index.js';
import { nearestName } from './rules/shared/nearest.js';
import { listOf } from './rules/shared/words.js';

/** The file beside a coach's files that sets rules for its folder and everything below. */
export const SETTINGS_FILE = 'stave.json';

/** What is set for the rules. What is missing has the rule's own default. */
export interface RuleSettings {
  readonly severities: Readonly<Record<string, Severity>>;
  /** By code, then by the option's key. */
  readonly options: Readonly<Record<string, Readonly<Record<string, number>>>>;
  /** When sign-offs are offered; what is missing has its default. */
  readonly signOff?: SignOffSettings;
}

export const NO_SETTINGS: RuleSettings = { severities: {}, options: {} };

export interface ReadSettings {
  readonly settings: RuleSettings;
  /** What could not be taken, in words. The rules that it is about keep their defaults. */
  readonly problems: readonly string[];
}

export const SEVERITY_NAMES = ['error', 'warning', 'info', 'hint', 'off'] as const;
const severityName = z.enum(SEVERITY_NAMES);

/** The shape of one option of a rule. */
function optionShape({ least, most, what, default: usual }: RuleOption) {
  return z
    .number()
    .min(least)
    .max(most)
    .optional()
    .describe(`${what} (${formatNumber(usual)}).`);
}

/** What may be written for a rule where more than its severity is set. */
function detailShape(rule: Rule) {
  const options = (rule.options ?? []).map((option) => [option.key, optionShape(option)] as const);
  return z.strictObject({ severity: severityName.optional(), ...Object.fromEntries(options) });
}

/** The shape of the rules in `stave.json` and in the editor's settings. */
export function rulesShape() {
  const rules = [...RULES].sort((a, b) => (a.code < b.code ? -1 : 1));
  return z.strictObject(
    Object.fromEntries(
      rules.map((rule) => [
        rule.code,
        z
          .union([severityName, detailShape(rule)])
          .optional()
          .describe(rule.what),
      ]),
    ),
  );
}

/** The whole of `stave.json`. */
export function settingsFileShape() {
  return z.strictObject({
    $schema: z.string().optional(),
    rules: rulesShape().optional().describe('Severity and options of the rules, by code.'),
    signOff: signOffShape().optional().describe('When sign-offs of stages are offered from the logs.'),
  });
}

/** Both settings together; what `over` says about a rule replaces what `under` says about it. */
export function mergeSettings(under: RuleSettings, over: RuleSettings): RuleSettings {
  return {
    severities: { ...under.severities, ...over.severities },
    options: { ...under.options, ...over.options },
    ...signOffOf(mergeSignOff(under.signOff, over.signOff)),
  };
}

function signOffOf(signOff: SignOffSettings | undefined): Pick<RuleSettings, 'signOff'> {
  return signOff && Object.keys(signOff).length > 0 ? { signOff } : {};
}

/** Reads the text of a `stave.json`. Never throws. */
export function readSettingsFile(text: string): ReadSettings {
  let value: unknown;
  try {
    value = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch {
    return nothing(say('This is not JSON: a comma, a bracket or a quotation mark is missing or too many.'));
  }
  if (!isRecord(value))
    return nothing(say('It has to begin with { and end with }, like { "rules": { "stuck": "off" } }.'));
  const problems: string[] = [];
  for (const key of Object.keys(value)) {
    if (key === 'rules' || key === 'signOff' || key === '$schema') continue;
    const isRule = RULES.some(({ code }) => code === key);
    problems.push(
      isRule
        ? say`"${key}" stands outside of "rules". Write { "rules": { "${key}": … } }.`
        : say`There is no setting "${key}" here.${meant(key, ['rules', 'signOff'])}`,
    );
  }
  const read = readRuleSettings(value.rules ?? {});
  const signOffs = readSignOff(value.signOff ?? {});
  return {
    settings: { ...read.settings, ...signOffOf(signOffs.settings) },
    problems: [...problems, ...read.problems, ...signOffs.problems],
  };
}

/** Reads the value of `rules`: by code a severity, or an object with a severity and options. Never throws. */
export function readRuleSettings(value: unknown): ReadSettings {
  if (!isRecord(value)) return nothing(say('"rules" has to be an object, like { "stuck": "off" }.'));
  const severities: Record<string, Severity> = {};
  const options: Record<string, Record<string, number>> = {};
  const problems: string[] = [];
  for (const [code, set] of Object.entries(value)) {
    const rule = RULES.find((known) => known.code === code);
    if (!rule) {
      problems.push(unknownRule(code));
      continue;
    }
    const read = typeof set === 'string' ? { severity: set } : set;
    const result = detailShape(rule).safeParse(read);
    if (!result.success) {
      problems.push(...result.error.issues.flatMap((issue) => issueWords(rule, issue, read)));
      continue;
    }
    const { severity, ...numbers } = result.data as { severity?: Severity } & Record<
      string,
      number | undefined
    >;
    if (severity !== undefined) severities[code] = severity;
    const given = Object.entries(numbers).filter(
      (entry): entry is [string, number] => entry[1] !== undefined,
    );
    if (given.length > 0) options[code] = Object.fromEntries(given);
  }
  return { settings: { severities, options }, problems };
}

function nothing(problem: string): ReadSettings {
  return { settings: NO_SETTINGS, problems: [problem] };
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return value !== null && typeof value === 'object' && !Array.isArray(value);
}

function unknownRule(code: string): string {
  if (PROBLEM_CODES.some((known) => known.code === code)) {
    return say`"${code}" is a mistake in the notation, not a rule; it cannot be set.`;
  }
  const codes = RULES.map((rule) => rule.code);
  return say`No rule is called "${code}".${meant(code, codes) || say(' `stave explain` lists them.')}`;
}

function meant(word: string, names: readonly string[]): string {
  const near = nearestName(
    word.toLowerCase(),
    names.map((key) => ({ key })),
  );
  return near ? say` Did you mean "${near.key}"?` : '';
}

function severityWords(): string {
  return say`It can be ${listOf(
    SEVERITY_NAMES.map((name) => `"${name}"`),
    'or',
  )}.`;
}
/** One thing that the shape of a rule's settings did not take, in words. */
function issueWords(rule: Rule, issue: z.core.$ZodIssue, value: unknown): readonly string[] {
  const key = issue.path[0];
  if (issue.code === 'unrecognized_keys') {
    const known = ['severity', ...(rule.options ?? []).map((option) => option.key)];
    const all = known.length === 1 ? say('only "severity"') : listOf(known.map((name) => `"${name}"`));
    return issue.keys.map(
      (wrong) =>
        say`"${rule.code}" has no option "${wrong}".${meant(wrong, known) || say` There is ${all}.`}`,
    );
  }
  if (key === undefined) {
    return [
      say`"${rule.code}" takes a severity, or an object like { "severity": "info" }. ${severityWords()}`,
    ];
  }
  const found = isRecord(value) ? JSON.stringify(value[String(key)]) : '';
  if (key === 'severity') {
    const near =
      isRecord(value) && typeof value.severity === 'string' ? meant(value.severity, SEVERITY_NAMES) : '';
    return [say`"${rule.code}" cannot have the severity ${found}.${near} ${severityWords()}`];
  }
  const option = (rule.options ?? []).find((known) => known.key === key);
  if (!option) return [say`"${String(key)}" of "${rule.code}" cannot be ${found}.`];
  return [
    say`"${option.key}" of "${rule.code}" has to be a number from ${formatNumber(option.least)} to ${formatNumber(option.most)}; found ${found}.`,
  ];
}
