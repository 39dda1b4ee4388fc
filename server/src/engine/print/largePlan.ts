/** The plan in large print: everything that the plan says, a day at a time, in letters for older eyes. */

import { say } from '../../../../grammar/say.js';
import { loadParts } from './card.js';
import { type EntrySheet, type MovementSheet, type PlanDocument, sessionLines } from './document.js';
import {
  type Block,
  type Paper,
  type PaperSection,
  type PaperSize,
  type Part,
  partsOf,
  type Row,
} from './paper/document.js';

const LARGE_PT = 16;

/** The document of `plan` in large print. */
export function largePlan(plan: PlanDocument, size: PaperSize): Paper {
  return {
    title: `${plan.title}: ${plan.programs}`,
    page: size,
    landscape: false,
    footer: plan.footer,
    fontPt: LARGE_PT,
    onePage: false,
    leastFontPt: LARGE_PT,
    sections: [cover(plan), ...plan.weeks.map(weekSection)],
  };
}

function pairs(
  name: string,
  titles: readonly [string, string],
  rows: readonly (readonly [string, string])[],
): Block {
  return {
    kind: 'table',
    table: {
      name,
      columns: [
        { title: titles[0], share: 0.32 },
        { title: titles[1], share: 0.68 },
      ],
      rows: rows.map(([label, value]) => ({
        kind: 'row',
        cells: [partsOf('big', label), partsOf('plain', value)],
      })),
    },
  };
}

function cover(plan: PlanDocument): PaperSection {
  return {
    heading: plan.title,
    aside: plan.programs,
    notes: [...plan.notices, ...plan.care],
    texts: [],
    blocks: [
      pairs(
        say('This plan'),
        [say('This plan'), ''],
        plan.facts.map(({ label, value }) => [label, value]),
      ),
      pairs(
        say('Take care'),
        [say('Take care'), ''],
        plan.cautions.map(({ heading, text }) => [heading, text]),
      ),
      pairs(
        say('How to read this plan'),
        [say('How to read it'), ''],
        plan.howToRead.map(({ term, meaning }) => [term, meaning]),
      ),
    ],
    closing: [],
  };
}

function weekSection(week: PlanDocument['weeks'][number]): PaperSection {
  const blocks = week.days.flatMap((day): Block[] => [
    {
      kind: 'table',
      table: {
        name: say`${day.name}: movements`,
        caption: { text: day.name, aside: day.when, source: day.source ?? null },
        columns: [
          { title: say('Movement'), share: 0.46 },
          { title: say('What to do, and what you did'), share: 0.54 },
        ],
        rows: day.entries.flatMap(entryRows),
      },
    },
    { kind: 'lines', labels: sessionLines().slice(0, 2) },
    { kind: 'lines', labels: sessionLines().slice(2) },
  ]);
  return {
    heading: week.heading,
    aside: [week.dates, week.program].filter((text) => text !== null).join(' · '),
    notes: week.notes,
    texts: week.texts,
    blocks,
    closing: [],
  };
}

function entryRows(entry: EntrySheet): readonly Row[] {
  if (entry.kind === 'text') return [{ kind: 'words', text: entry.text, aside: null }];
  if (entry.kind === 'circuit') return [{ kind: 'band', text: entry.heading, aside: entry.how }];
  return movementRows(entry.movement);
}

function movementRows(movement: MovementSheet): readonly Row[] {
  const rest = movement.rest === null ? null : say`rest ${movement.rest}`;
  const left: readonly Part[] = [
    ...partsOf('big', movement.name),
    // Nothing is smaller here than the large size itself.
    ...partsOf(
      'plain',
      ...movement.details,
      ...movement.texts,
      movement.warmUp,
      ...movement.steps,
      rest,
      movement.cue,
      movement.easier ?? null,
    ),
  ];
  const { source = null } = movement;
  return movement.work.map((work, index): Row => {
    const load = [...loadParts(work, 'kg'), ...partsOf('plain', work.note)].map(
      (part): Part => (part.kind === 'small' ? { kind: 'plain', text: part.text } : part),
    );
    const right = [
      ...partsOf('big', work.dose),
      ...partsOf('plain', work.effort),
      ...load,
      { kind: 'boxes', count: work.boxes } as const,
    ];
    return index === 0
      ? { kind: 'row', cells: [left, right], source }
      : { kind: 'more', cells: [partsOf('plain', say('then')), right], source };
  });
}
