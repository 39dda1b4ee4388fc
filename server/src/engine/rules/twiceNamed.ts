import { say } from '../../../../grammar/say.js';
import type { TwiceNamed } from '../model.js';
import type { RawFinding, Rule } from '../ruleForm.js';

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

function findingOf(twice: TwiceNamed): RawFinding {
  return {
    place: twice.place,
    headline: headlineOf(twice),
    detail: say('Which one holds cannot be told.'),
    advice: adviceOf(twice),
    client: null,
    cell: null,
    related: [{ place: twice.first, message: say('The first one stands here.') }],
    fixes: [],
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
  fix: 'Rename or remove one of the two. A movement that stands twice in a day gets a label in brackets.',
  checkWorld: (world) => world.twiceNamed.map(findingOf),
};
