import { say } from '../../../../grammar/say.js';
import type { FindingFix, TwiceNamed, World } from '../model.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { fixesOf } from './shared/fixes.js';

function headlineOf({ kind, text }: TwiceNamed): string {
  if (kind === 'client line')
    return say`The line "${text.replace('-', ' ')}" stands here with another value than before.`;
  if (kind === 'row') return say`"${text}" stands twice in this day.`;
  return say`There are two ${kind}s called "${text}".`;
}

function adviceOf({ kind }: TwiceNamed): string {
  if (kind === 'client line') return say('Keep the one that is right.');
  if (kind === 'row') return say('Give one of them a label, for example "back squat (pause):".');
  return say('Rename one, or take one away.');
}

/** Names that nothing else in the workspace has where this one stands. */
function takenNames(world: World, { kind, place }: TwiceNamed): ReadonlySet<string> {
  const owner = [...world.programs.values()].find(
    ({ place: own, node }) =>
      own.file === place.file && node.span.start <= place.span.start && place.span.end <= node.span.end,
  );
  const blocks = owner?.node.blocks ?? [];
  switch (kind) {
    case 'kit':
      return new Set(world.kits.keys());
    case 'movement':
      return new Set(world.movements.keys());
    case 'program':
      return new Set(world.programs.keys());
    case 'group':
      return new Set(world.groups.keys());
    case 'block':
      return new Set(blocks.map(({ name }) => name.key));
    case 'day':
      return new Set(blocks.flatMap(({ days }) => days.map(({ name }) => name.key)));
    default:
      return new Set();
  }
}

/**
 * Another name for the second thing, or the second line of a client as a note: the first one counts already, so that
 * nothing changes by it. A row is left to the coach, whose label says what the difference is.
 */
function fixOf(world: World, twice: TwiceNamed): FindingFix | null {
  const { kind, text, place } = twice;
  if (kind === 'row') return null;
  const { file, span } = place;
  if (kind === 'client line') {
    const edits = [{ file, span: { start: span.start, end: span.start }, newText: '-- ' }];
    return { title: say('Keep the one before, and make this line a note'), safe: false, edits };
  }
  const taken = takenNames(world, twice);
  let number = 2;
  while (taken.has(`${text.toLowerCase()} ${number}`)) number += 1;
  const newText = `${text} ${number}`;
  return { title: say`Call this one "${newText}"`, safe: false, edits: [{ file, span, newText }] };
}

function findingOf(world: World, twice: TwiceNamed): RawFinding {
  return {
    place: twice.place,
    headline: headlineOf(twice),
    detail: say('Which one holds cannot be told.'),
    advice: adviceOf(twice),
    client: null,
    cell: null,
    related: [{ place: twice.first, message: say('The first one stands here.') }],
    fixes: fixesOf(fixOf(world, twice)),
  };
}

export const twiceNamed: Rule = {
  code: 'twice-named',
  title: 'One name for two things',
  severity: 'error',
  what: 'A kit, movement, program, block, day or row is defined a second time, or two sections of one client say different things on the same line.',
  why: 'Two bars of different weight under one name, or two dates of birth for one person: whichever is taken may be the wrong one, and a load could come out too high.',
  source: 'Part of the notation, no source needed.',
  example: `kit Boathouse
  bar: 15kg

kit Boathouse
  bar: 20kg
`,
  better: `kit Boathouse
  bar: 15kg

kit Garage
  bar: 20kg
`,
  fix: 'Rename or remove one of the two. A movement that stands twice in a day gets a label in brackets. The quick fix gives the second one another name, or makes the second line of a client a note: the first counts already, so that no load changes by it. The label of a row is left to the coach, who knows what the difference is.',
  checkWorld: (world) => world.twiceNamed.map((twice) => findingOf(world, twice)),
};
