import { later, said, say } from '../../../../grammar/say.js';
import type { FindingFix, ResolvedCell, ResolvedGroup, Session } from '../model.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { countedReserve } from '../stages.js';
import { isHeavyWork } from './shared/cells.js';
import { onCell } from './shared/found.js';
import { perSession, picked } from './shared/perSession.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { movementText } from './shared/words.js';

const NOTE = later('Set the pins just below your lowest position, or have a spotter.');
/** Words in a printed text or a "care:" line that tell how a missed rep ends, in the languages that Stave speaks. */
const SAFE_WORDS =
  /\b(pins?|spotter\w*|spotted|spot|safety|safeties|rack|bail|alone|ablage\w*|sicher\w*|hilfestellung|allein|segur\w*|soportes?|ayudantes?|asistid[ao]|sol[ao])\b/i;

function isOverBody(cell: ResolvedCell): boolean {
  const { movement } = cell;
  return (
    movement?.implement.kind === 'barbell' && (movement.pattern === 'squat' || movement.pattern === 'push')
  );
}

const CODE = 'spotter-note';
const SURE_RESERVE: RuleOption = {
  key: 'sureReserve',
  default: 2,
  least: 0.5,
  most: 6,
  what: 'reps in reserve below which a missed rep is to be reckoned with',
};
const NOISE = 1e-6;

function mayMiss(group: ResolvedGroup, sureReserve: number): boolean {
  if (!isHeavyWork(group) || group.loadKg === null) return false;
  return countedReserve(group.writtenReserve, group.reserve) < sureReserve - NOISE;
}

/** Whether anything that is printed for this session says what happens when a rep is missed. */
function isNoted(session: Session, cell: ResolvedCell): boolean {
  const ofDay = session.day.entries.flatMap((entry) => (entry.kind === 'text' ? [entry.text] : []));
  const texts = [
    ...cell.texts,
    ...ofDay,
    ...session.block.texts,
    ...session.client.care,
    cell.movement?.cue ?? '',
  ];
  const ofProgram = session.program.node.texts.map((entry) => entry.text.text);
  return [...texts, ...ofProgram].some((text) => SAFE_WORDS.test(text));
}

/** Cells of a session that need a note, by their number, and their movements. */
const unnotedIn = perSession((session, context) => {
  if (session.supervised) return null;
  const sureReserve = context.option(CODE, SURE_RESERVE);
  return picked(session.cells, (cell, number) =>
    isOverBody(cell) && cell.groups.some((group) => mayMiss(group, sureReserve)) && !isNoted(session, cell)
      ? { number, movement: cell.movement?.key ?? '' }
      : null,
  );
});

/** A printed line under the day's header. */
function noteFix({ day }: Session): FindingFix {
  const { end } = day.node.headerSpan;
  return {
    title: say`Print "${said(NOTE)}" on the day "${day.name}"`,
    safe: false,
    edits: [{ file: day.place.file, span: { start: end, end }, newText: `\n  "${said(NOTE)}"` }],
  };
}

const files = (note: string) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', ['ready: heavy squat 2026-06-01', 'max: back squat, 47.5kg x5 r2, 2026-11-30']),
    winter('Keel, 2 weeks', { Lower: [...(note ? [note] : []), 'back squat: 3x5 r1'] }),
  );

export const spotterNote: Rule = {
  code: CODE,
  title: 'A heavy bar over the body, alone',
  severity: 'info',
  options: [SURE_RESERVE],
  what: 'A heavy squat or bench press with a barbell that leaves less than two in reserve, in sessions that are not supervised, and no printed text about pins, a rack or a spotter.',
  why: 'A rep that is missed alone ends on the body. Pins at the right height or a spotter make it harmless.',
  source: 'Common practice, no source.',
  example: files(''),
  better: files('"Set the pins just below your lowest position."'),
  fix: 'Add a line of text to the day, such as "Set the pins just below your lowest position.", or a "care:" line to the client. The quick fix adds a line to the day.',
  caution: 'Nobody should lift heavy over the body alone without pins.',
  checkPlan(plan, _world, context) {
    const told = new Set<string>();
    const findings: RawFinding[] = [];
    for (const { session, value } of unnotedIn(plan, context)) {
      for (const { number, movement } of value) {
        if (told.has(movement)) continue;
        told.add(movement);
        const cell = session.cells[number] as ResolvedCell;
        findings.push(
          onCell(cell, {
            headline: say`${movementText(cell)}: heavy, and nothing printed says how a missed rep ends.`,
            detail: say`${plan.client.name}: from ${session.date}, not supervised.`,
            advice: say(
              'Add a line of text about pins or a spotter to the day, or have the sessions supervised.',
            ),
            fixes: [noteFix(session)],
          }),
        );
      }
    }
    return findings;
  },
};
