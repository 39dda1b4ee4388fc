import type { Span } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import { addDays, daysBetween } from '../dates.js';
import { clientOffers } from '../history/history.js';
import type { ClientPlan, Finding, IsoDate, Place, Session } from '../model.js';
import { dayWords, shortDayWords } from '../print/words.js';
import { countOf, listOf } from '../rules/shared/words.js';
import type { EngineSession } from '../session.js';

/** What a lens speaks of. Plain, so that it can travel to an editor and back before its words are asked for. */
export interface LensTarget {
  readonly kind: 'program' | 'block' | 'client' | 'kit';
  /** Blocks: `program / block`. */
  readonly key: string;
}

export interface Lens {
  /** The header's name, above which it stands. */
  readonly span: Span;
  readonly target: LensTarget;
}

/** A place behind a lens, for a list to choose from. */
export interface LensEntry {
  readonly heading: 'clients' | 'findings' | 'sessions' | 'offers';
  readonly label: string;
  readonly detail: string;
  readonly place: Place;
}

export interface LensWords {
  readonly title: string;
  readonly entries: readonly LensEntry[];
}

export type LensKinds = Readonly<Record<'programs' | 'clients' | 'kits', boolean>>;

/** Where lenses stand in a file. Cheap: nothing is worked out. */
export function lenses(session: EngineSession, file: string, kinds: LensKinds): Lens[] {
  const sections = session.tree(file)?.value.sections ?? [];
  return sections.flatMap((section): Lens[] => {
    if (section.kind === 'client' && kinds.clients)
      return [{ span: section.name.span, target: { kind: 'client', key: section.name.key } }];
    if (section.kind === 'kit' && kinds.kits)
      return [{ span: section.name.span, target: { kind: 'kit', key: section.name.key } }];
    if (section.kind !== 'program' || !kinds.programs) return [];
    const { key, span } = section.name;
    return [
      { span, target: { kind: 'program', key } },
      ...section.blocks.map(
        (block): Lens => ({
          span: block.name.span,
          target: { kind: 'block', key: `${key} / ${block.name.key}` },
        }),
      ),
    ];
  });
}

/** What a lens says and lists; null when what it speaks of is gone, or when there is nothing to say. */
export function lensWords(
  session: EngineSession,
  file: string,
  target: LensTarget,
  today: IsoDate | null,
): LensWords | null {
  switch (target.kind) {
    case 'client':
      return clientWords(session, target.key, today);
    case 'kit':
      return kitWords(session, target.key);
    default:
      return programWords(session, file, target.key, today);
  }
}

function clientWords(session: EngineSession, key: string, today: IsoDate | null): LensWords | null {
  const plan = session.plan(key);
  if (!plan || today === null) return null;
  const next = plan.sessions.filter(({ date }) => date >= today);
  const offers = clientOffers(plan, session.world(), today, session.signOffCriteria(key));
  const first = next[0];
  const parts = [
    first
      ? say`next session ${shortDay(first.date, today)}`
      : plan.sessions.length === 0
        ? say('no program')
        : say('no session to come'),
    ...(offers.length > 0 ? [countOf(offers.length, 'offer')] : []),
  ];
  return {
    title: parts.join(' · '),
    entries: [
      ...next.slice(0, 5).map(
        (each): LensEntry => ({
          heading: 'sessions',
          label: `${dayWords(each.date)}: ${each.day.name}`,
          detail: weekWords(each),
          place: each.day.place,
        }),
      ),
      ...offers.map(
        ({ title, why, under }): LensEntry => ({
          heading: 'offers',
          label: title,
          detail: why,
          place: under,
        }),
      ),
    ],
  };
}

/** `Mon 7 Dec`; with the year where it is another one. */
function shortDay(date: IsoDate, today: IsoDate): string {
  const year = date.slice(0, 4) === today.slice(0, 4) ? '' : ` ${date.slice(0, 4)}`;
  return `${shortDayWords(date)}${year}`;
}

function weekWords({ block, week, deload }: Session): string {
  return say`${block.name}, week ${week} of ${block.weeks}${deload ? say(', deload') : ''}`;
}

function kitWords(session: EngineSession, key: string): LensWords | null {
  const world = session.world();
  if (!world.kits.has(key)) return null;
  const users = [...world.clients.values()]
    .filter(({ trainsAt }) => trainsAt.some(({ kit }) => kit === key))
    .sort((a, b) => (a.key < b.key ? -1 : 1));
  return {
    title: users.length === 0 ? say('used by nobody') : say`used by ${countOf(users.length, 'client')}`,
    entries: users.flatMap((client): LensEntry[] => {
      const line = client.trainsAt.find(({ kit }) => kit === key);
      const detail = line && line.on.length > 0 ? `on ${line.on.join(' ')}` : '';
      return line ? [{ heading: 'clients', label: client.name, detail, place: line.place }] : [];
    }),
  };
}

function programWords(
  session: EngineSession,
  file: string,
  key: string,
  today: IsoDate | null,
): LensWords | null {
  const [programKey = '', blockKey] = key.split(' / ');
  const program = session.world().programs.get(programKey);
  const node = blockKey === undefined ? program?.node : nodeOfBlock(program?.node, blockKey);
  if (!program || !node || program.place.file !== file) return null;
  const followers = session.followers(programKey).flatMap((client) => session.plan(client) ?? []);
  const found = session
    .findings(file)
    .filter(({ place }) => node.span.start <= place.span.start && place.span.start <= node.span.end);
  const now =
    today === null ? [] : followers.flatMap((plan) => nowIn(plan, programKey, blockKey, today) ?? []);
  const weeks = [...new Set(now.map(({ at }) => at.week))].sort((a, b) => a - b);
  const sameBlock = new Set(now.map(({ at }) => at.block.key)).size <= 1;
  const where = blockKey === undefined && sameBlock && now[0] ? `${now[0].at.block.name}, ` : '';
  const parts = [
    followers.length === 0 ? say('followed by nobody') : countOf(followers.length, 'client'),
    ...(weeks.length === 0
      ? []
      : sameBlock
        ? [say`${where}week ${listOf(weeks.map(String))} now`]
        : [say`${new Set(now.map(({ at }) => at.block.key)).size} blocks now`]),
    ...(found.length === 0 ? [] : [countOf(found.length, 'finding')]),
  ];
  return {
    title: parts.join(' · '),
    entries: [
      ...followers.flatMap((plan) => followerEntry(plan, programKey, now)),
      ...found.map(findingEntry),
    ],
  };
}

function nodeOfBlock(
  program: { readonly blocks: readonly { name: { key: string }; span: Span }[] } | undefined,
  key: string,
) {
  return program?.blocks.find(({ name }) => name.key === key);
}

interface Now {
  readonly plan: ClientPlan;
  readonly at: Session;
}

function followerEntry(plan: ClientPlan, programKey: string, now: readonly Now[]): LensEntry[] {
  const at = now.find((each) => each.plan === plan)?.at;
  const line = plan.client.follows.findLast(({ program }) => program === programKey);
  if (!line) return [];
  const detail = at ? weekWords(at) : say`from ${line.from}`;
  return [{ heading: 'clients', label: plan.client.name, detail, place: line.place }];
}

function findingEntry({ code, message, place }: Finding): LensEntry {
  return { heading: 'findings', label: message, detail: code, place };
}

/** The session of the program week that today lies in; null before the first, after the last and in a week off. */
function nowIn(
  plan: ClientPlan,
  programKey: string,
  blockKey: string | undefined,
  today: IsoDate,
): Now | null {
  const own = plan.sessions.filter(({ program }) => program.key === programKey);
  const at = own.find((each, index) => {
    const line = plan.client.follows.findLast(
      ({ program, from }) => program === programKey && from <= each.date,
    );
    if (!line) return false;
    // With weekdays a program week is seven days from the first; with `every 3 days` a session lasts to the next one.
    if (line.everyDays !== null) {
      const next = own[index + 1]?.date ?? addDays(each.date, line.everyDays);
      return each.date <= today && today < next;
    }
    const start = addDays(each.date, -(daysBetween(line.from, each.date) % 7));
    return start <= today && today <= addDays(start, 6);
  });
  if (!at || (blockKey !== undefined && at.block.key !== blockKey)) return null;
  return { plan, at };
}
