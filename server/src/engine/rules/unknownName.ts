import { later, said, say } from '../../../../grammar/say.js';
import type { UnknownName } from '../model.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { nearestName } from './shared/nearest.js';

/** How a kind of name is spoken of, and where it would be defined. */
const KINDS: Readonly<Record<UnknownName['kind'], { readonly noun: string; readonly define: string }>> = {
  kit: { noun: later('kit'), define: later('a section "kit NAME"') },
  movement: { noun: later('movement'), define: later('a section "movement NAME" with its pattern') },
  'movement or pattern': {
    noun: later('movement or pattern'),
    define: later('a section "movement NAME" with its pattern'),
  },
  client: { noun: later('client'), define: later('a section "client NAME"') },
  group: { noun: later('group'), define: later('a section "group NAME"') },
  program: { noun: later('program'), define: later('a section "program NAME"') },
  block: { noun: later('block'), define: later('a line "block NAME, 4 weeks" in that program') },
  day: { noun: later('day'), define: later('a line "day NAME" in that block') },
  band: { noun: later('band'), define: later('a line "bands: light, medium" in the kit') },
  machine: {
    noun: later('machine'),
    define: later('a line "machine NAME: 20kg to 120kg by 5kg" in the kit'),
  },
  bar: { noun: later('bar'), define: later('a line "bar NAME: 8kg" in the kit') },
};

function findingOf(unknown: UnknownName): RawFinding {
  const { noun, define } = KINDS[unknown.kind];
  const meant = nearestName(unknown.name.key, unknown.candidates);
  return {
    place: unknown.place,
    headline: say`No ${said(noun)} is called "${unknown.name.text}".`,
    detail: meant ? say`Did you mean "${meant.text}"?` : '',
    advice: meant ? say`Otherwise add ${said(define)}.` : say`Check the spelling, or add ${said(define)}.`,
    client: null,
    cell: null,
    related: [],
    fixes: meant
      ? [
          {
            title: say`Change to "${meant.text}"`,
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
  checkNames: (unknown) => unknown.map(findingOf),
};
