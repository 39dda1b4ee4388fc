import { say } from '../../../../grammar/say.js';
import { clientOffers } from '../history/history.js';
import type { Client, ClientPlan, Kit, Movement, Occurrence, Program } from '../model.js';
import { formatNumber, formatPercent } from '../numbers.js';
import type { EngineSession } from '../session.js';
import { formatMass } from '../units.js';
import { countOf } from '../words.js';
import { blockVolume, dayVolume } from './hoverVolume.js';
import { escapeMarkdown } from './text.js';

/** What a name stands for, in short; Markdown. Null where it stands for nothing known. */
export function nameHover(session: EngineSession, at: Occurrence): string | null {
  const world = session.world();
  switch (at.kind) {
    case 'client': {
      const client = world.clients.get(at.key);
      return client ? clientSummary(session, client) : null;
    }
    case 'movement': {
      const movement = world.movements.get(at.key);
      return movement ? movementSummary(session, movement) : null;
    }
    case 'kit': {
      const kit = world.kits.get(at.key);
      return kit ? kitSummary(kit) : null;
    }
    case 'program': {
      const program = world.programs.get(at.key);
      return program ? programSummary(session, program) : null;
    }
    case 'group': {
      const group = world.groups.get(at.key);
      return group
        ? lines(title('group', group.name), [
            listed(
              say('Members'),
              group.members.map(({ text }) => text),
            ),
          ])
        : null;
    }
    case 'block':
      return blockSummary(session, at.key);
    case 'day':
      return daySummary(session, at);
    case 'band':
    case 'machine':
    case 'bar':
      return lines(title(at.kind, at.key), [listed(say('In'), kitsWith(session, at))]);
  }
}

function title(kind: string, name: string): string {
  return `**${escapeMarkdown(name)}** (${kind})`;
}

/** A title and a list of what is known. */
function lines(head: string, facts: readonly string[]): string {
  const known = facts.filter((fact) => fact !== '').map((fact) => `- ${escapeMarkdown(fact)}`);
  return known.length === 0 ? head : `${head}\n\n${known.join('\n')}`;
}

function listed(label: string, items: readonly string[]): string {
  return items.length === 0 ? '' : `${label}: ${items.join(', ')}`;
}

function clientSummary(session: EngineSession, client: Client): string {
  const programs = session.world().programs;
  const newest = new Map<string, string>();
  for (const max of [...client.maxes].sort((a, b) => (a.date < b.date ? -1 : 1))) {
    const load = max.bodyweight
      ? `bw${max.loadKg === 0 ? '' : ` ${max.loadKg < 0 ? '−' : '+'} ${formatMass(Math.abs(max.loadKg), client.units)}`}`
      : formatMass(max.loadKg, client.units);
    newest.set(
      max.movement,
      `${max.movementName.text}: ${load} × ${max.reps}${max.reserve > 0 ? say`, ${formatNumber(max.reserve, 1)} in reserve` : ''}, ${max.date}`,
    );
  }
  const signOffs = [...client.signOffs].sort((a, b) => (a.date < b.date ? -1 : 1));
  return lines(title('client', client.name), [
    client.born === null ? '' : say`Born ${client.born}`,
    listed(
      say('Conditions'),
      client.conditions.map(({ name }) => name),
    ),
    ...client.care.map((care) => say`Care: ${care}`),
    listed(
      say('Trains at'),
      client.trainsAt.map(({ kit }) => session.world().kits.get(kit)?.name ?? kit),
    ),
    listed(
      say('Follows'),
      client.follows.map(
        (entry) => say`${programs.get(entry.program)?.name ?? entry.programName.text} from ${entry.from}`,
      ),
    ),
    listed(
      say('Signed off'),
      signOffs.map(({ stage, pattern, date }) => `${stage} ${pattern} ${date}`),
    ),
    ...[...newest.values()].map((max) => say`Max: ${max}`),
    ...suggested(session, client),
  ]);
}

/** What the logs suggest for a client today, each with what it rests on. */
function suggested(session: EngineSession, client: Client): string[] {
  const today = session.today();
  const plan = session.plan(client.key);
  if (today === null || !plan) return [];
  const offers = clientOffers(plan, session.world(), today, session.signOffCriteria(client.key));
  return offers.map(({ title: what, why }) => say`The logs suggest: ${what}. ${why}`);
}

function movementSummary(session: EngineSession, movement: Movement): string {
  const { movements } = session.world();
  const nameOf = (key: string): string => movements.get(key)?.name ?? key;
  const { implement, estimate } = movement;
  return lines(title(movement.place === null ? say('movement, built in') : 'movement', movement.name), [
    say`Pattern: ${movement.pattern}, with ${implement.kind === 'machine' ? say`machine ${implement.key}` : implement.kind}, from the stage “${movement.stage}”`,
    movement.easier === null ? '' : say`Easier: ${nameOf(movement.easier)}`,
    movement.harder === null ? '' : say`Harder: ${nameOf(movement.harder)}`,
    estimate === null
      ? ''
      : say`Estimate: ${formatPercent(estimate.share)} of ${nameOf(estimate.of)}; provisional, never for heavy sets`,
    movement.liftsShare === null ? '' : say`Lifts ${formatPercent(movement.liftsShare)} of body mass`,
    movement.cue === null ? '' : say`Cue: ${movement.cue}`,
  ]);
}

function kitSummary(kit: Kit): string {
  const { model } = kit;
  const kg = (value: number): string => formatMass(value, 'kg');
  const range = (loads: readonly number[]): string => {
    const first = loads[0];
    const last = loads[loads.length - 1];
    if (first === undefined || last === undefined) return '';
    return loads.length <= 8
      ? loads.map(kg).join(', ')
      : say`${kg(first)} to ${kg(last)}, ${loads.length} loads`;
  };
  const fact = (label: string, value: string): string => (value === '' ? '' : `${label}: ${value}`);
  return lines(title('kit', kit.name), [
    listed(
      say('Bars'),
      model.bars.map((bar) => (bar.name === null ? kg(bar.kg) : `${bar.name} ${kg(bar.kg)}`)),
    ),
    listed(
      say('Plates'),
      model.plates.map((plate) => `${kg(plate.kg)} ×${plate.count}`),
    ),
    fact(say('Dumbbells'), range(model.dumbbells.map((weight) => weight.kg))),
    fact(say('Kettlebells'), range(model.kettlebells.map((weight) => weight.kg))),
    model.pack === null ? '' : say`Pack: to ${kg(model.pack.toKg)} by ${kg(model.pack.stepKg)}`,
    listed(say('Bands'), model.bands),
    ...Object.values(model.machines).map(
      (machine) => say`Machine ${machine.name}: ${range(machine.loadsKg)}`,
    ),
  ]);
}

function programSummary(session: EngineSession, program: Program): string {
  const weeks = program.blocks.reduce((sum, block) => sum + block.weeks, 0);
  const { clients } = session.world();
  const followers = session.followers(program.key).map((key) => clients.get(key)?.name ?? key);
  return lines(title('program', program.name), [
    program.aim === null ? '' : say`Aim: ${program.aim}`,
    listed(
      countOf(weeks, 'week'),
      program.blocks.map((block) => `${block.name} (${block.weeks})`),
    ),
    followers.length === 0 ? say('Nobody follows it yet') : listed(say('Followed by'), followers),
  ]);
}

/** Plans of everybody who follows a program. */
function plansOf(session: EngineSession, program: Program): readonly ClientPlan[] {
  return session.followers(program.key).flatMap((key) => session.plan(key) ?? []);
}

function blockSummary(session: EngineSession, key: string): string | null {
  const [programKey, blockKey] = key.split(' / ');
  const program = session.world().programs.get(programKey ?? '');
  const block = program?.blocks.find((entry) => entry.key === blockKey);
  if (!program || !block) return null;
  const deloads = [...block.deloadWeeks];
  const summary = lines(title('block', block.name), [
    `${countOf(block.weeks, 'week')}${block.stage === null ? '' : `, ${block.stage}`}`,
    listed(say('Deload weeks'), deloads.map(String)),
    listed(
      say('Days'),
      block.days.map(({ name }) => name),
    ),
  ]);
  const volume = blockVolume(plansOf(session, program), block);
  return volume === null ? summary : `${summary}\n\n${volume}`;
}

/**
 * Days of one name in a program are one, as `like` and logs take them. What they amount to is told of the day that is
 * pointed at, or of all where the name stands elsewhere.
 */
function daySummary(session: EngineSession, at: Occurrence): string | null {
  const [programKey, dayKey] = at.key.split(' / ');
  const program = session.world().programs.get(programKey ?? '');
  const days = (program?.blocks ?? []).flatMap((block) =>
    block.days.filter((day) => day.key === dayKey).map((day) => ({ block, day })),
  );
  const first = days[0];
  if (!program || !first) return null;
  const rows = new Set(days.flatMap(({ day }) => day.rows.map((row) => row.movementName.text)));
  const summary = lines(title('day', first.day.name), [
    listed(
      say('In'),
      days.map(({ block }) => block.name),
    ),
    listed(say('Rows'), [...rows]),
  ]);
  const pointedAt = days.filter(
    ({ day: { place } }) =>
      place.file === at.place.file &&
      place.span.start <= at.place.span.start &&
      at.place.span.end <= place.span.end,
  );
  const volume =
    pointedAt.length === 0
      ? null
      : dayVolume(
          plansOf(session, program),
          pointedAt.map(({ day }) => day),
        );
  return volume === null ? summary : `${summary}\n\n${volume}`;
}

function kitsWith(session: EngineSession, at: Occurrence): string[] {
  return [...session.world().kits.values()]
    .filter(({ model }) => {
      if (at.kind === 'band') return model.bands.includes(at.key);
      if (at.kind === 'machine') return Object.hasOwn(model.machines, at.key);
      return model.bars.some((bar) => bar.name?.toLowerCase() === at.key);
    })
    .map(({ name }) => name);
}
