import type { StructureProblem } from '../model.js';
import type { RawFinding, Rule } from '../ruleForm.js';

function findingOf(problem: StructureProblem): RawFinding {
  return {
    place: problem.place,
    headline: problem.message,
    detail: '',
    // The message says what to try.
    advice: '',
    client: null,
    cell: null,
    related: problem.related,
    fixes: problem.fixes,
  };
}

export const cannotWorkOut: Rule = {
  code: 'cannot-work-out',
  title: 'Something that goes in a circle or has no end',
  severity: 'error',
  what: 'A block that is like itself by way of others, a block that drops weeks which were written, a movement that is estimated from itself or easier than itself, or a block without a number of weeks.',
  why: 'There is no right answer to print, so no load is given rather than a guessed one.',
  source: 'Part of the notation, no source needed.',
  example: `program Winter

block Keel, 4 weeks, like Second keel

block Second keel, like Keel
`,
  better: `program Winter

block Keel, 4 weeks
day Lower
  bodyweight squat: 3x8

block Second keel, like Keel
`,
  fix: 'Break the circle at the place that is easiest to write out, or give the block the weeks that are written. The quick fix makes one of the lines of a movement a note, or writes the number of weeks. What a block in a circle should hold, and how many weeks one has, only the coach knows.',
  checkWorld: (world) => world.structureProblems.map(findingOf),
};
