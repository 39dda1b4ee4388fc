import type {
  ClientLine,
  ClientNode,
  FollowsNode,
  GroupSectionNode,
  Span,
} from '../../../../grammar/index.js';
import type { Client, Follows, MaxEntry, Place, PlacedAllow, TwiceNamed } from '../model.js';
import type { MaxLimits } from '../resolve/limits.js';

/** One `client` section and the file it stands in. */
export interface ClientPart {
  readonly file: string;
  readonly node: ClientNode;
}

/** One `group` section and the file it stands in. */
export interface GroupPart {
  readonly file: string;
  readonly node: GroupSectionNode;
}

type Line<Kind extends ClientLine['kind']> = Extract<ClientLine, { kind: Kind }>;
type Placed<Kind extends ClientLine['kind']> = Line<Kind> & { readonly place: Place };

function bindFollows(node: FollowsNode, file: string, group: string | null): Follows {
  return {
    program: node.program.key,
    programName: node.program,
    from: node.from.iso,
    on: node.on.map((day) => day.value),
    startMinutes: new Map(node.times.map(({ day, minute }) => [day, minute])),
    everyDays: node.everyDays?.value ?? null,
    supervised: node.supervised,
    alongside: node.alongside,
    place: { file, span: node.span },
    node,
    group,
  };
}

function bindMax(line: Placed<'max'>): MaxEntry {
  return {
    movement: line.movement.key,
    movementName: line.movement,
    loadKg: line.load?.kg ?? 0,
    bodyweight: line.bodyweight,
    reps: line.reps.value,
    reserve: line.reserve,
    date: line.date.iso,
    kit: line.at?.key ?? null,
    from: line.from?.iso ?? null,
    place: line.place,
  };
}

/** Lines that can be said only once; what is compared is their meaning. */
const SINGLE: { readonly [Kind in ClientLine['kind']]?: (line: never) => string } = {
  born: (line: Line<'born'>) => line.date.text,
  height: (line: Line<'height'>) => String(line.cm.value),
  units: (line: Line<'units'>) => line.unit.value,
  'lifting-since': (line: Line<'lifting-since'>) => line.date.text,
  screened: (line: Line<'screened'>) => line.date.iso,
  rounding: (line: Line<'rounding'>) => line.rounding.value,
};

/** Merges all sections of one client. Single-valued lines that differ are returned as `conflicts`; the first counts. */
export function bindClient(
  parts: readonly ClientPart[],
  groups: readonly GroupPart[],
  limits: MaxLimits,
): { client: Client; conflicts: readonly TwiceNamed[] } {
  const first = parts[0] as ClientPart;
  const conflicts: TwiceNamed[] = [];
  const lines = parts.flatMap(({ file, node }) =>
    node.lines.map((line) => ({ ...line, place: { file, span: line.span as Span } })),
  );
  const all = <Kind extends ClientLine['kind']>(kind: Kind) =>
    lines.filter((line) => line.kind === kind) as unknown as Placed<Kind>[];
  const single = <Kind extends ClientLine['kind']>(kind: Kind): Placed<Kind> | undefined => {
    const [kept, ...others] = all(kind);
    const meaning = SINGLE[kind] as ((line: unknown) => string) | undefined;
    if (kept && meaning) {
      for (const other of others) {
        if (meaning(other) === meaning(kept)) continue;
        conflicts.push({ kind: 'client line', text: kind, place: other.place, first: kept.place });
      }
    }
    return kept;
  };
  const allows: PlacedAllow[] = [
    ...all('allow').map((line) => ({
      code: line.code.value,
      reason: line.reason.text,
      place: line.place,
      node: line,
    })),
    ...groups.flatMap(({ file, node }) =>
      node.allows.map((allow) => ({
        code: allow.code.value,
        reason: allow.reason.text,
        place: { file, span: allow.span },
        node: allow,
      })),
    ),
  ];
  const follows = [
    ...all('follows').map((line) => bindFollows(line, line.place.file, null)),
    ...groups.flatMap(({ file, node }) =>
      node.follows.map((entry) => bindFollows(entry, file, node.name.key)),
    ),
  ].sort((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0));
  const client: Client = {
    key: first.node.name.key,
    name: first.node.name.text,
    nodes: parts,
    born: single('born')?.date.text ?? null,
    heightCm: single('height')?.cm.value ?? null,
    masses: all('mass').map((line) => ({
      kg: line.mass.kg,
      date: line.date?.iso ?? null,
      place: line.place,
    })),
    units: single('units')?.unit.value ?? 'kg',
    liftingSince: single('lifting-since')?.date.text ?? null,
    screened: single('screened')?.date.iso ?? null,
    conditions: all('condition').map((line) => ({ name: line.condition.value, place: line.place })),
    trainsAt: all('trains-at').map((line) => ({
      kit: line.kit.key,
      on: line.on.map((day) => day.value),
      from: line.from?.iso ?? null,
      place: line.place,
    })),
    curves: all('curve').map((line) => ({
      value: line.curve.value,
      from: line.from?.iso ?? null,
      place: line.place,
    })),
    rounding: single('rounding')?.rounding.value ?? 'down',
    care: all('care').map((line) => line.text.text),
    signOffs: all('ready').flatMap((line) =>
      line.signOffs.map((signOff) => ({
        stage: signOff.stage.value,
        pattern: signOff.pattern.value,
        date: signOff.date.iso,
        place: { file: line.place.file, span: signOff.span },
      })),
    ),
    maxes: all('max').map(bindMax),
    avoids: all('avoid').map((line) => ({
      what: line.what.key,
      from: line.from?.iso ?? null,
      until: line.until?.iso ?? null,
      reason: line.reason?.text ?? null,
      place: line.place,
    })),
    swaps: all('swap').map((line) => ({
      movement: line.movement.key,
      to: line.to.key,
      toName: line.to,
      dose: line.dose,
      from: line.from?.iso ?? null,
      until: line.until?.iso ?? null,
      reason: line.reason?.text ?? null,
      place: line.place,
    })),
    follows,
    aways: all('away')
      .map((line) => ({
        from: line.from.iso,
        to: line.to.iso,
        backShares: line.backPercent.map((percent) => percent.value / 100),
        keepDates: line.keepDates,
        place: line.place,
      }))
      .sort((a, b) => (a.from < b.from ? -1 : 1)),
    allows,
    limits,
    place: { file: first.file, span: first.node.name.span },
  };
  return { client, conflicts };
}
