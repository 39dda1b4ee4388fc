import type { AllowNode, Span } from '../../../grammar/index.js';
import { say } from '../../../grammar/say.js';
import type { PlannedFor } from './history/done.js';
import type {
  Client,
  ClientPlan,
  Finding,
  FindingFix,
  LogEntry,
  Place,
  PlacedAllow,
  RelatedLine,
  Severity,
  UnknownName,
  World,
} from './model.js';
import type { BlockPlan, BlockWorld, RawFinding, Rule, RuleContext } from './ruleForm.js';
import { RULES } from './rules/index.js';
import { nearestName } from './rules/shared/nearest.js';
import { countOf } from './rules/shared/words.js';
import { unusedAllow } from './rules/unusedAllow.js';

/** What a rule found, with the rule. The cell is left out, as findings are kept longer than plans. */
export interface CodedFinding extends Omit<RawFinding, 'cell' | 'scope' | 'log'> {
  readonly code: string;
  readonly rule: Rule;
  /** Date of the cell; empty without one. */
  readonly date: string;
  /** Name of the client as written; null for findings about names and sections. */
  readonly clientName: string | null;
}

const WORLD_RULES = RULES.filter((rule) => rule.checkWorld);
const NAME_RULES = RULES.filter((rule) => rule.checkNames);
const LOG_RULES = RULES.filter((rule) => rule.checkLogs);
const BLOCK_RULES = RULES.filter((rule) => rule.checkBlock);
const PLAN_RULES = RULES.filter((rule) => rule.checkPlan);

/** What is found, and where the `allow` lines stand that silenced something. */
export interface Sifted {
  readonly findings: readonly CodedFinding[];
  readonly used: readonly Place[];
}

/** Which findings are wanted: other files may have other settings, and rules that are off need not be asked. */
export interface Wanted {
  readonly isAsked: (file: string) => boolean;
  readonly isSkipped: (code: string) => boolean;
}

const EVERYTHING: Wanted = { isAsked: () => true, isSkipped: () => false };

/** What the rules about names and sections find. No `allow` line silences these: without names nothing can be said. */
export function worldFindings(
  world: World,
  context: RuleContext,
  { isAsked, isSkipped }: Wanted = EVERYTHING,
): CodedFinding[] {
  return WORLD_RULES.filter(({ code }) => !isSkipped(code)).flatMap((rule) =>
    (rule.checkWorld?.(world, context) ?? [])
      .filter(({ place }) => isAsked(place.file))
      .map((raw) => coded(rule, raw)),
  );
}

/** What the rules say of names in one file that are defined nowhere. */
export function nameFindings(
  unknown: readonly UnknownName[],
  { isAsked, isSkipped }: Wanted = EVERYTHING,
): CodedFinding[] {
  return NAME_RULES.filter(({ code }) => !isSkipped(code)).flatMap((rule) =>
    (rule.checkNames?.(unknown) ?? [])
      .filter(({ place }) => isAsked(place.file))
      .map((raw) => coded(rule, raw)),
  );
}

/** What the rules find in the logs of one client, less what `allow` lines of a log, the client or her groups silence. */
export function logFindings(
  logs: readonly LogEntry[],
  client: Client | null,
  world: Pick<World, 'movements'>,
  context: RuleContext,
  { isAsked, isSkipped }: Wanted,
  planned: PlannedFor,
): Sifted {
  const findings: CodedFinding[] = [];
  const used = new Set<Place>();
  for (const rule of LOG_RULES) {
    if (isSkipped(rule.code)) continue;
    for (const raw of rule.checkLogs?.(logs, client, world, context, planned) ?? []) {
      if (!isAsked(raw.place.file)) continue;
      const allows = allowsOfLog(raw, client, rule.code);
      if (allows.length === 0) findings.push(coded(rule, raw));
      for (const allow of allows) used.add(allow);
    }
  }
  return { findings, used: [...used] };
}

/** Places of the `allow` lines of a code that reach a finding in a log. */
function allowsOfLog({ log, place }: RawFinding, client: Client | null, code: string): Place[] {
  const ofLog = (log?.allows ?? []).filter((allow) => allow.code.value === code);
  const ofClient = (client?.allows ?? []).filter((allow) => allow.code === code);
  return [...ofLog.map(({ span }) => ({ file: place.file, span })), ...ofClient.map((allow) => allow.place)];
}

/**
 * What the rules on blocks find in one block of a client, less what `allow` lines of the client, her groups, the
 * program, block, day, circuit or row silence. Only findings in files that `isAsked` takes count, because other files
 * may have other settings.
 */
export function blockFindings(
  part: BlockPlan,
  world: BlockWorld,
  context: RuleContext,
  wanted: Wanted = EVERYTHING,
): Sifted {
  return siftedOf(part.client, BLOCK_RULES, (rule) => rule.checkBlock?.(part, world, context), wanted);
}

/** The same for the rules that need the whole plan. */
export function planFindings(
  plan: ClientPlan,
  world: World,
  context: RuleContext,
  wanted: Wanted = EVERYTHING,
): Sifted {
  return siftedOf(plan.client, PLAN_RULES, (rule) => rule.checkPlan?.(plan, world, context), wanted);
}

function siftedOf(
  client: Client,
  rules: readonly Rule[],
  check: (rule: Rule) => readonly RawFinding[] | undefined,
  { isAsked, isSkipped }: Wanted,
): Sifted {
  const findings: CodedFinding[] = [];
  const used = new Set<Place>();
  for (const rule of rules) {
    if (isSkipped(rule.code)) continue;
    for (const raw of check(rule) ?? []) {
      if (!isAsked(raw.place.file)) continue;
      const allows = allowsFor(client, raw, rule.code);
      if (allows.length === 0) findings.push(coded(rule, raw, client.name));
      for (const allow of allows) used.add(allow);
    }
  }
  return { findings, used: [...used] };
}

function coded(rule: Rule, raw: RawFinding, clientName: string | null = null): CodedFinding {
  const { cell, scope: _scope, log: _log, ...rest } = raw;
  return { ...rest, code: rule.code, rule, clientName, date: cell?.date ?? '' };
}

/** Places of the `allow` lines that reach a finding. Rows hold those of their circuit, clients those of their groups. */
function allowsFor(client: Client, { cell, scope }: RawFinding, code: string): readonly Place[] {
  const program = cell?.program ?? scope?.program;
  const block = cell?.block ?? scope?.block;
  const day = cell?.day ?? scope?.day;
  const places: Place[] = [];
  const add = (allows: readonly PlacedAllow[] | undefined) => {
    for (const allow of allows ?? []) if (allow.code === code) places.push(allow.place);
  };
  add(cell?.row.allows);
  add(day?.allows);
  add(block?.allows);
  add(client.allows);
  for (const allow of program?.node.allows ?? []) {
    if (program && allow.code.value === code) places.push({ file: program.place.file, span: allow.span });
  }
  return places;
}

/** `allow` lines of a file that silence nothing in anybody's plan, or whose code no rule has. */
export function unusedAllows(
  world: World,
  used: readonly Place[],
  file: string,
  text: string,
): CodedFinding[] {
  // Most files have no such line, and need not be looked through.
  if (!mayAllow(text)) return [];
  const starts = new Set(used.flatMap((place) => (place.file === file ? [place.span.start] : [])));
  return everyAllow(world, file)
    .filter(({ node }) => !starts.has(node.span.start))
    .map(({ node, file }) => coded(unusedAllow, unusedFinding(node, file, text)));
}

/** Whether an `allow` line can stand in a text. */
export function mayAllow(text: string): boolean {
  return /allow/i.test(text);
}

function unusedFinding(node: AllowNode, file: string, text: string): RawFinding {
  const code = node.code.value;
  const known = RULES.some((rule) => rule.code === code);
  const near = known
    ? null
    : nearestName(
        code,
        RULES.map((rule) => ({ key: rule.code })),
      );
  const place: Place = { file, span: node.span };
  const remove: FindingFix = {
    title: say('Take this line away'),
    safe: true,
    edits: [{ file, span: wholeLine(text, node.span), newText: '' }],
  };
  const correct: FindingFix[] = near
    ? [
        {
          title: say`Change to "${near.key}"`,
          safe: false,
          edits: [{ file, span: node.code.span, newText: near.key }],
        },
      ]
    : [];
  return {
    place,
    headline: known
      ? say`This line silences nothing: there is no "${code}" here.`
      : say`No rule is called "${code}".`,
    detail: near ? say`Did you mean "${near.key}"?` : '',
    advice: known
      ? say('Take it away, so that it does not silence something new.')
      : say('Correct the code, or take the line away.'),
    client: null,
    cell: null,
    related: [],
    fixes: [...correct, remove],
  };
}

/** The line of a statement with its line break, where nothing else stands on it; else the statement alone. */
function wholeLine(text: string, span: Span): Span {
  const start = text.slice(0, span.start).search(/[^\S\r\n]*$/);
  const after = /^[^\S\r\n]*(\r\n|\r|\n|$)/.exec(text.slice(span.end));
  const before = /(^|\r\n|\r|\n)$/.exec(text.slice(0, start));
  if (!after || !before) return span;
  // The last line has no break of its own, so it takes the one before it.
  const atEnd = after[1] === '';
  return { start: start - (atEnd ? before[0].length : 0), end: span.end + after[0].length };
}

/** Every `allow` line of a file. */
function everyAllow(
  world: World,
  file: string,
): readonly { readonly node: AllowNode; readonly file: string }[] {
  const found = new Set<AllowNode>();
  const add = (nodes: readonly AllowNode[]) => {
    for (const node of nodes) found.add(node);
  };
  for (const client of world.clients.values()) {
    for (const { node, place } of client.allows) if (place.file === file) found.add(node);
  }
  for (const group of world.groups.values()) if (group.place.file === file) add(group.node.allows);
  for (const log of world.logsIn(file)) add(log.node.allows);
  for (const { node, place } of world.programs.values()) {
    if (place.file !== file) continue;
    add(node.allows);
    for (const block of node.blocks) {
      add(block.allows);
      for (const day of block.days) {
        add(day.allows);
        for (const entry of day.entries) {
          if (entry.kind === 'row') add(entry.allows);
          if (entry.kind !== 'circuit') continue;
          add(entry.allows);
          for (const inner of entry.entries) if (inner.kind === 'row') add(inner.allows);
        }
      }
    }
  }
  return [...found].map((node) => ({ node, file }));
}

// ---------------------------------------------------------------- joining

/** Findings of so many clients are told in full; of the others only the names. */
const TOLD_IN_FULL = 3;

const WEIGHT: Readonly<Record<Finding['severity'], number>> = { error: 0, warning: 1, info: 2, hint: 3 };

/**
 * One list for every output. Findings of one code, place and headline become one that names every client; the same
 * client at the same place in several weeks is told once, with how many more. A severity in `severities` goes before
 * the rule's own; `off` drops the finding.
 */
export function joinFindings(
  found: readonly CodedFinding[],
  severities: Readonly<Record<string, Severity>>,
): Finding[] {
  const joined = new Map<string, CodedFinding[]>();
  for (const finding of found) {
    const { file, span } = finding.place;
    const key = JSON.stringify([finding.code, file, span.start, span.end, finding.headline]);
    const same = joined.get(key);
    if (same) same.push(finding);
    else joined.set(key, [finding]);
  }
  const findings: Finding[] = [];
  for (const same of joined.values()) {
    const severity = severityOf(same, severities);
    if (severity !== 'off') findings.push(joinedFinding(same, severity));
  }
  return findings.sort(byPlace);
}

function byPlace(a: Finding, b: Finding): number {
  if (a.place.file !== b.place.file) return a.place.file < b.place.file ? -1 : 1;
  return (
    a.place.span.start - b.place.span.start ||
    WEIGHT[a.severity] - WEIGHT[b.severity] ||
    (a.code < b.code ? -1 : a.code > b.code ? 1 : 0)
  );
}

function severityOf(same: readonly CodedFinding[], severities: Readonly<Record<string, Severity>>): Severity {
  const first = same[0] as CodedFinding;
  const set = severities[first.code];
  if (set !== undefined) return set;
  if (first.rule.severity === 'off') return 'off';
  const each = same.map((finding) => finding.severity ?? (finding.rule.severity as Finding['severity']));
  return each.reduce((most, severity) => (WEIGHT[severity] < WEIGHT[most] ? severity : most));
}

function joinedFinding(same: readonly CodedFinding[], severity: Finding['severity']): Finding {
  const first = same[0] as CodedFinding;
  const details = detailsOf(same);
  const advice = distinct(same.map((finding) => finding.advice)).slice(0, 1);
  const message = [first.headline, ...details, ...advice].filter((text) => text !== '').join(' ');
  return {
    code: first.code,
    severity,
    message,
    place: first.place,
    related: distinctBy(
      same.flatMap((finding) => finding.related),
      relatedKey,
    ),
    fixes: distinctBy(
      same.flatMap((finding) => finding.fixes),
      (fix) => fix.title,
    ),
  };
}

/** What is told of each client: her first finding, and how many more there are. Beyond a few clients only the names. */
function detailsOf(same: readonly CodedFinding[]): string[] {
  const byClient = new Map<string, CodedFinding[]>();
  for (const finding of same) {
    const key = finding.client ?? '';
    const own = byClient.get(key);
    if (own) own.push(finding);
    else byClient.set(key, [finding]);
  }
  const all = [...byClient.values()];
  const told = all.slice(0, TOLD_IN_FULL).map(detailOf);
  const rest = all.slice(TOLD_IN_FULL).map((own) => nameOf(own[0] as CodedFinding));
  return rest.length === 0 ? told : [...told, say`The same for ${rest.join(', ')}.`];
}

function detailOf(own: readonly CodedFinding[]): string {
  const inOrder = [...own].sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
  const details = distinct(inOrder.map((finding) => finding.detail));
  const first = details[0] ?? '';
  if (details.length < 2) return first;
  const last = (inOrder[inOrder.length - 1] as CodedFinding).date;
  return say`${first} And ${countOf(details.length - 1, 'more time')}${last === '' ? '' : say`, until ${last}`}.`;
}

function nameOf(finding: CodedFinding): string {
  return finding.clientName ?? finding.client ?? '';
}

function relatedKey({ place, message }: RelatedLine): string {
  return JSON.stringify([place.file, place.span.start, message]);
}

function distinct(values: readonly string[]): string[] {
  return [...new Set(values)];
}

function distinctBy<Value>(values: readonly Value[], key: (value: Value) => string): Value[] {
  const seen = new Map<string, Value>();
  for (const value of values) if (!seen.has(key(value))) seen.set(key(value), value);
  return [...seen.values()];
}
