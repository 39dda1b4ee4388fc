import type { UnknownName } from '../model.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { nearestName } from './shared/nearest.js';

/** How a kind of name is spoken of, and where it would be defined. */
const KINDS: Readonly<Record<UnknownName['kind'], { readonly noun: string; readonly define: string }>> = {
  kit: { noun: 'kit', define: 'a section "kit NAME"' },
  movement: { noun: 'movement', define: 'a section "movement NAME" with its pattern' },
  'movement or pattern': {
    noun: 'movement or pattern',
    define: 'a section "movement NAME" with its pattern',
  },
  client: { noun: 'client', define: 'a section "client NAME"' },
  group: { noun: 'group', define: 'a section "group NAME"' },
  program: { noun: 'program', define: 'a section "program NAME"' },
  block: { noun: 'block', define: 'a line "block NAME, 4 weeks" in that program' },
  day: { noun: 'day', define: 'a line "day NAME" in that block' },
  band: { noun: 'band', define: 'a line "bands: light, medium" in the kit' },
  machine: { noun: 'machine', define: 'a line "machine NAME: 20kg to 120kg by 5kg" in the kit' },
  bar: { noun: 'bar', define: 'a line "bar NAME: 8kg" in the kit' },
};

function findingOf(unknown: UnknownName): RawFinding {
  const { noun, define } = KINDS[unknown.kind];
  const meant = nearestName(unknown.name.key, unknown.candidates);
  return {
    place: unknown.place,
    headline: `No ${noun} is called "${unknown.name.text}".`,
    detail: meant ? `Did you mean "${meant.text}"?` : '',
    advice: meant ? `Otherwise add ${define}.` : `Check the spelling, or add ${define}.`,
    client: null,
    cell: null,
    related: [],
    fixes: meant
      ? [
          {
            title: `Change to "${meant.text}"`,
            safe: false,
            edits: [{ file: unknown.place.file, span: unknown.name.span, newText: meant.text }],
          },
        ]
      : [],
  };
}

export const unknownName: Rule = {
  code: 'unknown-name',
  title: 'A name that is defined nowhere',
  severity: 'error',
  what: 'A kit, movement, client, group, program, block, day, band, machine or bar is named that no file of the workspace (nor the built-in catalogue) defines.',
  why: 'A slip in a name leaves a row without its max, its kit or its client. The load would be missing on paper, or a person would be missing from the program.',
  source: 'Part of the notation, no source needed.',
  example: `movement box squat
  pattern: squat
  with: barbell

program Winter

block Keel, 4 weeks
day Lower
  box sqaut: 3x8 r3
`,
  better: `movement box squat
  pattern: squat
  with: barbell

program Winter

block Keel, 4 weeks
day Lower
  box squat: 3x8 r3
`,
  fix: 'Correct the spelling or define the name. The quick fix puts in the nearest name that exists.',
  checkWorld: (world) => world.unknownNames.map(findingOf),
};
