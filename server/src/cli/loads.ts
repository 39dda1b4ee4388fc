/** `stave loads`: every resolved cell of a client. */
import type { ClientPlan, ResolvedCell, ResolvedGroup, Session } from '../engine/model.js';
import { formatNumber, roundTo } from '../engine/numbers.js';
import { markedUnit } from '../engine/print/work.js';
import { formatMass, fromKg } from '../engine/units.js';
import { planOf } from './clients.js';
import { readWorkspace, type Workspace } from './files.js';
import { foundIn, placeOf } from './found.js';
import { EXIT, type Io } from './io.js';
import { LOADS_VERSION, type Loads, type LoadsCell, type LoadsGroup } from './loadsSchema.js';
import { coloursOf, counted, padText, visible, wrapText } from './text.js';

export interface LoadsOptions {
  readonly for: string;
  readonly json: boolean;
  readonly in: string | null;
}

export async function loads(paths: readonly string[], options: LoadsOptions, io: Io): Promise<number> {
  const workspace = await readWorkspace(paths, io, { lookIn: options.in });
  const plan = planOf(workspace, options.for);
  io.out(
    options.json
      ? `${JSON.stringify(loadsJson(plan, workspace), null, 2)}\n`
      : loadsText(plan.sessions, workspace, io),
  );
  return EXIT.clean;
}

export function loadsJson(plan: ClientPlan, workspace: Workspace): Loads {
  const found = foundIn(workspace);
  return {
    version: LOADS_VERSION,
    cells: plan.sessions.flatMap(({ cells }) => cells.map((cell) => cellJson(cell, workspace))),
    findings: found.map(({ code, severity, file, line, column, message }) => ({
      code,
      severity,
      file,
      line,
      column,
      message,
    })),
  };
}

function cellJson(cell: ResolvedCell, workspace: Workspace): LoadsCell {
  const { file, line } = placeOf(workspace, cell.place);
  return {
    client: cell.client.name,
    program: cell.program.name,
    block: cell.block.name,
    day: cell.day.name,
    movement: cell.movement?.name ?? cell.row.movementName.text,
    week: cell.week,
    date: cell.date,
    file,
    line,
    groups: cell.groups.map(groupJson),
  };
}

/** A number without binary noise; null for what is no number of this world. */
function plain(value: number | null): number | null {
  return value === null || !Number.isFinite(value) ? null : roundTo(value, 6);
}

function groupJson(group: ResolvedGroup): LoadsGroup {
  return {
    sets: plain(group.sets),
    reps: plain(group.reps),
    seconds: plain(group.seconds),
    metres: plain(group.metres),
    targetKg: plain(group.targetKg),
    loadKg: plain(group.loadKg),
    eachSideKg: group.eachSideKg === null ? null : group.eachSideKg.map((kg) => roundTo(kg, 6)),
    reserve: group.reserveBeyond ? null : plain(group.reserve),
    share: plain(group.share),
    provisional: group.provisional,
  };
}

/** One set group as the columns of a line. */
interface LoadLine {
  readonly name: string;
  readonly dose: string;
  readonly load: string;
  /** Plates and what is predicted; not aligned, so that the line stays short. */
  readonly rest: string;
}

/** Sessions as text: a heading for each week, a line for each set group, columns under each other. */
export function loadsText(sessions: readonly Session[], workspace: Workspace, io: Io): string {
  const colour = coloursOf(io);
  const rows = new Map(sessions.map((session) => [session, session.cells.flatMap(loadLines)] as const));
  const all = [...rows.values()].flat();
  const widths = columnWidths(all, io.width);
  const gap = gapThatFits(all, widths, io.width);
  const lines: string[] = [];
  let heading = '';
  for (const [session, loadRows] of rows) {
    const { program, block, week, deload, kit } = session;
    const next = `${program.name} · ${block.name}, week ${week} of ${block.weeks}${deload ? ' (deload)' : ''}`;
    if (next !== heading) {
      if (heading !== '') lines.push('');
      lines.push(colour.bold(wrapText(visible(next), io.width)));
      heading = next;
    }
    lines.push(
      wrapText(visible(`${session.date}  ${session.day.name}${kit ? `, ${kit.name}` : ''}`), io.width),
    );
    for (const row of loadRows) lines.push(...columns(row, widths, io.width, gap));
  }
  if (sessions.length === 0) lines.push('No sessions.');
  const shown = foundIn(workspace).filter(
    ({ severity }) => severity === 'error' || severity === 'warning',
  ).length;
  if (shown > 0)
    lines.push('', `${counted(shown, 'finding')}: \`stave check\` shows ${shown === 1 ? 'it' : 'them'}.`);
  return `${lines.join('\n')}\n`;
}

function loadLines(cell: ResolvedCell): LoadLine[] {
  const label = cell.row.label === null ? '' : ` (${cell.row.label})`;
  const name = visible(`${cell.movement?.name ?? cell.row.movementName.text}${label}`);
  return cell.groups.map((group, index) => {
    return {
      name: index === 0 ? name : '; then',
      dose: shortDose(cell, group),
      load: shortLoad(cell, group),
      rest: [shortPlates(cell, group), predicted(group)].filter((part) => part !== '').join(' '),
    };
  });
}

/** Columns no wider than what is in them; a name or a dose that is much longer gets a line of its own. */
function columnWidths(rows: readonly LoadLine[], width: number): Record<'name' | 'dose' | 'load', number> {
  const widest = (of: (row: LoadLine) => string, most: number) =>
    Math.max(0, ...rows.map((row) => of(row).length).filter((length) => length <= most));
  const share = (part: number) => Math.floor(width * part);
  return {
    name: widest(({ name }) => name, share(0.3)),
    dose: widest(({ dose }) => dose, share(0.16)),
    load: widest(({ load }) => load, share(0.2)),
  };
}

const INDENT = '  ';
const MOST_GAP = 2;

/** Two spaces between the columns, one where that saves lines from being broken. */
function gapThatFits(
  rows: readonly LoadLine[],
  widths: ReturnType<typeof columnWidths>,
  width: number,
): number {
  return rows.some((row) => columns(row, widths, width, MOST_GAP).length > 1) ? 1 : MOST_GAP;
}

/** The columns of one set group, over as many lines as the width asks for. */
function columns(
  row: LoadLine,
  widths: ReturnType<typeof columnWidths>,
  width: number,
  gap: number,
): string[] {
  const cells = [
    [row.name, widths.name],
    [row.dose, widths.dose],
    [row.load, widths.load],
    [row.rest, 0],
  ] as const;
  const lines = [''];
  for (const [text, columnWidth] of cells) {
    const last = lines.length - 1;
    const next = `${lines[last]}${lines[last] === '' ? INDENT : ' '.repeat(gap)}${padText(text, columnWidth)}`;
    if (text !== '' && next.trimEnd().length > width && lines[last] !== '')
      lines.push(`${INDENT}    ${text}`);
    else lines[last] = next;
  }
  return lines.map((line) => line.trimEnd());
}

/** The dose in the notation that the coach writes: `3x6 r2`, `3x8/side`, `6x20s off 100s`. */
function shortDose(cell: ResolvedCell, group: ResolvedGroup): string {
  if (cell.test) return `test x${cell.test.reps}`;
  const parts: string[] = [];
  const sets = group.sets === null ? '' : String(group.sets);
  const side = cell.perSide ? '/side' : '';
  if (group.seconds !== null) parts.push(`${sets}x${shortTime(group.seconds)}${side}`);
  else if (group.metres !== null) parts.push(`${sets}x${formatNumber(group.metres)}m${side}`);
  else if (group.openReps) parts.push(`${sets}xmax${side}`);
  else if (group.reps !== null) {
    const range = group.repsUpper !== null && group.repsUpper !== group.reps ? `-${group.repsUpper}` : '';
    parts.push(`${sets}x${group.reps}${range}${side}`);
  }
  if (group.offSeconds !== null) parts.push(`off ${shortTime(group.offSeconds)}`);
  if (group.writtenReserve !== null) parts.push(`r${formatNumber(group.writtenReserve)}`);
  if (group.writtenPercent !== null) parts.push(`${formatNumber(group.writtenPercent, 1)}%`);
  return parts.join(' ');
}

function shortTime(seconds: number): string {
  return seconds >= 60 && seconds % 60 === 0 ? `${seconds / 60}min` : `${formatNumber(seconds, 1)}s`;
}

/** `= 45 kg`, `~ 45 kg` where provisional, `= bw + 5 kg`, `= band light`, `?` where no load can be given. */
function shortLoad(cell: ResolvedCell, group: ResolvedGroup): string {
  const unit = cell.client.units;
  const sign = group.provisional ? '~ ' : '= ';
  if (group.band !== null) return visible(`${sign}band ${group.band}`);
  const kg = group.loadKg;
  const kind = cell.movement?.implement.kind;
  if (group.basis === 'bodyweight' || kind === 'bodyweight') {
    if (kg === null || kg === 0) return `${sign}bw`;
    return `${sign}bw ${kg > 0 ? '+' : '-'} ${formatMass(Math.abs(kg), unit)}`;
  }
  if (kg === null) return group.issue === null ? '' : '?';
  const mass = formatMass(kg, unit);
  if (group.basis === 'pack' || kind === 'pack') return `${sign}pack ${mass}`;
  return `${sign}${mass}${kind === 'dumbbells' ? ' each' : ''}`;
}

/** `10+5/side`, `bar alone`; the bar's name where it is not the main one. */
function shortPlates(cell: ResolvedCell, group: ResolvedGroup): string {
  if (group.eachSideKg === null) return '';
  const marked = markedUnit(cell.kit, cell.movement, cell.client.units);
  const plates = group.eachSideKg.map((kg) => formatNumber(fromKg(kg, marked))).join('+');
  const bar = group.bar === null ? '' : `${visible(group.bar)} bar`;
  const unit = marked === cell.client.units ? '' : marked;
  if (plates === '') return bar === '' ? 'bar alone' : `${bar} alone`;
  return `${plates}${unit}/side${bar === '' ? '' : `, ${bar}`}`;
}

/** `2.6 left 79%`. */
function predicted(group: ResolvedGroup): string {
  const parts: string[] = [];
  if (group.reserveBeyond) parts.push('many left');
  else if (group.reserve !== null) parts.push(`${formatNumber(group.reserve, 1)} left`);
  if (group.share !== null) parts.push(`${formatNumber(group.share * 100, 0)}%`);
  return parts.join(' ');
}
