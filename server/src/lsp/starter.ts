import { z } from 'zod';
import { normaliseName, PATTERN_NAMES } from '../../../grammar/index.js';
import { say } from '../../../grammar/say.js';
import { WEEKDAYS } from '../engine/dates.js';
import type { Place } from '../engine/model.js';
import type { EngineSession } from '../engine/session.js';
import { createSession } from '../engine/session.js';
import { readAlias, readBorn, readSet } from '../engine/starter/answers.js';
import { clientFiles } from '../engine/starter/client.js';
import { firstPlaces, MADE_FOR_HER, starterChange } from '../engine/starter/follow.js';
import { firstDay } from '../engine/starter/program.js';
import { seedKits, seedPrograms } from '../engine/starter/seeds.js';
import { toRange } from './convert.js';
import type {
  StarterFiles,
  StarterFollow,
  StarterOffers,
  StarterPlaces,
  StarterPrograms,
  StarterRead,
} from './messages.js';
import { Refusal } from './refusal.js';
import type { Runtime } from './runtime.js';
import { statusOf } from './status.js';
import { canonicalUri } from './uris.js';
import type { Scope, Workspace } from './workspace.js';

const answer = z.string().max(500);
const folder = z.string().nullable();
const offersParams = z.object({ folder });
const readParams = z.object({ folder, field: z.enum(['alias', 'born', 'set']), text: answer });
const clientParams = z.object({
  folder,
  alias: answer,
  born: answer,
  /** Names; the first is where she trains. */
  kits: z.array(answer).max(50),
  sets: z.array(answer).max(20),
  signedOff: z.array(z.enum(PATTERN_NAMES)),
});
const programsParams = z.object({ uri: z.string() });
const followParams = z.object({
  uri: z.string(),
  client: z.string(),
  program: answer,
  on: z.array(z.enum(WEEKDAYS)).min(1),
});
const placesParams = z.object({ uri: z.string(), client: z.string().nullable() });

export interface StarterHost {
  readonly workspace: Workspace;
  readonly runtime: Runtime;
  /** The scope of a file, or of the folder itself, once it has been read. */
  readonly scopeOf: (uri: string) => Promise<Scope | undefined>;
}

/** Everything that the extension asks when a coach starts: the texts are made here, the extension only writes them. */
export function starterFeatures({ workspace, runtime, scopeOf }: StarterHost) {
  /** What is in a folder, open or not; empty for one that is not there yet. */
  async function sessionOf(uri: string | null): Promise<EngineSession> {
    const open = uri === null ? undefined : await scopeOf(uri);
    if (open?.isFolder && open.uri === canonicalUri(uri ?? '').replace(/\/$/, '')) return open.session;
    const session = createSession({ today: runtime.today() });
    const files = uri === null ? [] : await runtime.listFiles(uri).catch(() => []);
    for (const file of files) session.setFile(canonicalUri(file), (await runtime.readFile(file)) ?? '');
    return session;
  }

  return {
    async starterOffers(params: unknown): Promise<StarterOffers | null> {
      const asked = offersParams.safeParse(params).data;
      if (!asked) return null;
      const { kits } = (await sessionOf(asked.folder)).world();
      const about = kitWords();
      const known = [...kits.values()].map(({ name }) => ({ name, about: '', known: true }));
      const shipped = seedKits().filter(({ key }) => !kits.has(key));
      return {
        kits: [
          ...known,
          ...shipped.map((kit) => ({ name: kit.name, about: about[kit.key] ?? kit.about, known: false })),
        ],
      };
    },
    async starterRead(params: unknown): Promise<StarterRead | null> {
      const asked = readParams.safeParse(params).data;
      if (!asked) return null;
      const session = await sessionOf(asked.folder);
      const today = runtime.today();
      if (asked.field === 'alias') {
        const { problem } = readAlias(asked.text, new Set(session.world().clients.keys()));
        return { problem, words: null, needs: null };
      }
      if (asked.field === 'born') {
        const { problem } = readBorn(asked.text, today);
        return { problem, words: null, needs: null };
      }
      const { value, problem } = readSet(asked.text, today, session.world().movements);
      const needs =
        value && value.movement.stage !== 'learn'
          ? { pattern: value.movement.pattern, movement: value.movement.name }
          : null;
      return { problem, words: value?.words ?? null, needs };
    },
    async starterClient(params: unknown): Promise<StarterFiles | null> {
      const asked = clientParams.safeParse(params).data;
      if (!asked) return null;
      const session = await sessionOf(asked.folder);
      const world = session.world();
      const today = runtime.today();
      const alias = sure(readAlias(asked.alias, new Set(world.clients.keys()))) ?? '';
      const born = sure(readBorn(asked.born, today));
      const sets = asked.sets.flatMap((text) => sure(readSet(text, today, world.movements)) ?? []);
      const answers = { alias, born, kits: asked.kits, sets, signedOff: asked.signedOff };
      const files = clientFiles(answers, today, new Set(world.kits.keys()), takenIn(session, asked.folder));
      return { files, client: normaliseName(alias) };
    },
    async starterPrograms(params: unknown): Promise<StarterPrograms | null> {
      const asked = programsParams.safeParse(params).data;
      const scope = asked && (await scopeOf(asked.uri));
      if (!asked || !scope?.isFolder) return null;
      const { clients } = statusOf(scope, workspace.keyOf(asked.uri));
      const words = programWords();
      const shipped = seedPrograms().map(({ name, key, about }) => ({
        id: name,
        title: name,
        about: words[key] ?? about,
      }));
      return {
        clients,
        programs: [{ id: MADE_FOR_HER, title: say('First weeks'), about: words[''] ?? '' }, ...shipped],
      };
    },
    async starterFollow(params: unknown): Promise<StarterFollow | null> {
      const asked = followParams.safeParse(params).data;
      const scope = asked && (await scopeOf(asked.uri));
      if (!asked || !scope?.isFolder)
        throw new Refusal(say('This file lies in no open folder. Open the folder first.'));
      const { session } = scope;
      const on = WEEKDAYS.filter((day) => asked.on.includes(day));
      const days = { from: firstDay(runtime.today(), on), on };
      const change = starterChange(session, asked.client, asked.program, days, takenIn(session, scope.uri));
      const document = change && workspace.document(scope, change.at.file);
      if (!change || !document) throw new Refusal(say('There is no such client or program any more.'));
      return {
        folder: scope.uri,
        program: change.name,
        files: change.file ? [change.file] : [],
        edit: {
          uri: document.uri,
          position: document.positionAt(change.at.span.start),
          newText: change.line,
        },
        from: days.from,
      };
    },
    async starterPlaces(params: unknown): Promise<StarterPlaces | null> {
      const asked = placesParams.safeParse(params).data;
      const scope = asked && (await scopeOf(asked.uri));
      if (!asked || !scope) return null;
      const { clients, shown } = statusOf(scope, workspace.keyOf(asked.uri));
      if (clients.length === 0) return null;
      const { load, finding, code } = firstPlaces(scope.session, asked.client ?? shown, runtime.today());
      const located = (place: Place | null) => {
        const document = place && workspace.document(scope, place.file);
        return document ? { uri: document.uri, range: toRange(document, place.span) } : null;
      };
      return { load: located(load), finding: located(finding), code };
    },
  };
}

export type StarterFeatures = ReturnType<typeof starterFeatures>;

/** Answers were looked at while they were typed; what is wrong now has changed since. */
function sure<Value>(read: { readonly value: Value; readonly problem: string | null }): Value {
  if (read.problem !== null) throw new Refusal(read.problem);
  return read.value;
}

/** Paths of the files of a folder, as seen from it. */
function takenIn(session: EngineSession, uri: string | null): ReadonlySet<string> {
  const start = `${canonicalUri(uri ?? '').replace(/\/$/, '')}/`;
  const inside = session.files().filter((file) => file.startsWith(start));
  return new Set(inside.map((file) => decodeURIComponent(file.slice(start.length))));
}

/** What is in the shipped kits, by key. */
function kitWords(): Readonly<Record<string, string>> {
  return {
    'home corner': say('light dumbbells, a backpack, three bands'),
    'community studio': say('machines, dumbbells, a light bar with small plates'),
    'barbell room': say('racks, bars with many plates, dumbbells, a few machines'),
  };
}

/** What the programs are for, by key. */
function programWords(): Readonly<Record<string, string>> {
  return {
    '': say('made for her: bodyweight first, then her own lifts, light to begin with; six weeks'),
    'first steps': say('two days a week without any weights; eight weeks'),
    'finding load': say('dumbbells and machines, for somebody signed off for loads; twelve weeks'),
    'first barbell': say('the bar comes in, for somebody signed off for loads; ten weeks'),
    'heavy cycle': say('for somebody signed off for heavy work; eleven weeks'),
  };
}
