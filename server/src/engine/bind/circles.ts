/** What goes in a circle: blocks by `like`, movements by `estimate:` and `easier:`. Each circle is one problem. */
import type { BlockNode } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import type { FindingFix, Movement, Place, RelatedLine, StructureProblem } from '../model.js';

/** A block on the way of `like`, and the file that it is written in. */
export interface LikeStep {
  readonly file: string;
  readonly node: BlockNode;
}

function isBefore(a: Place, b: Place): boolean {
  return a.file === b.file ? a.span.start < b.span.start : a.file < b.file;
}

/** The place that stands first. The same circle is found from each of its blocks, and told at one of them. */
function firstOf(places: readonly Place[]): number {
  return places.reduce((best, place, index) => (isBefore(place, places[best] as Place) ? index : best), 0);
}

function likePlace({ file, node }: LikeStep): Place {
  return { file, span: node.like?.span ?? node.name.span };
}

/** `path` leads to `block`, which is one of its steps already: from there on it goes round. */
export function likeCircle(path: readonly LikeStep[], block: BlockNode): StructureProblem {
  const start = path.findIndex(({ node }) => node === block);
  const round = path.slice(start);
  const first = firstOf(round.map(likePlace));
  const circle = [...round.slice(first), ...round.slice(0, first)];
  const names = [...circle, circle[0] as LikeStep].map(({ node }) => node.name.text);
  return {
    kind: 'like-circle',
    message:
      circle.length === 1
        ? say`The block "${block.name.text}" is like itself. Write it out in full.`
        : say`These blocks are like one another in a circle: ${names.join(' → ')}. Write one of them out in full.`,
    place: likePlace(circle[0] as LikeStep),
    related: [
      ...circle.slice(1).map((step) => ({
        place: likePlace(step),
        message: say`"${step.node.name.text}" is one of the circle.`,
      })),
      ...path.slice(0, start).map((step) => ({
        place: likePlace(step),
        message: say`"${step.node.name.text}" leads into it, and is left out too.`,
      })),
    ],
    fixes: [],
  };
}

/** Problems of one kind at one place are one, with the related lines of all. */
export function joinedProblems(problems: readonly StructureProblem[]): readonly StructureProblem[] {
  const joined = new Map<string, StructureProblem>();
  for (const problem of problems) {
    const key = `${problem.kind} ${problem.place.span.start} ${problem.place.file}`;
    const known = joined.get(key);
    joined.set(key, known ? { ...known, related: together(known.related, problem.related) } : problem);
  }
  return [...joined.values()];
}

function together(some: readonly RelatedLine[], more: readonly RelatedLine[]): readonly RelatedLine[] {
  const isNew = (line: RelatedLine) =>
    !some.some(({ place }) => place.file === line.place.file && place.span.start === line.place.span.start);
  return [...some, ...more.filter(isNew)];
}

const CHAINS = [
  { kind: 'estimate-circle', next: (at: Movement) => at.estimate?.of ?? null, word: 'estimate' },
  { kind: 'easier-circle', next: (at: Movement) => at.easier, word: 'easier' },
] as const;

type Chain = (typeof CHAINS)[number];

interface ChainStep {
  readonly movement: Movement;
  readonly place: Place;
}

/** Estimates and easier movements that lead back to where they started. Only the workspace's own lines are told. */
export function movementCircles(movements: ReadonlyMap<string, Movement>): StructureProblem[] {
  return [...movements.values()].flatMap((movement) =>
    CHAINS.flatMap((chain) => circleFrom(movement, chain, movements) ?? []),
  );
}

/** The circle that a movement is in, at the first of its lines; null where it is in none, or is not that first one. */
function circleFrom(
  movement: Movement,
  chain: Chain,
  movements: ReadonlyMap<string, Movement>,
): StructureProblem | null {
  if (!movement.place) return null;
  const path = [movement];
  let at = movements.get(chain.next(movement) ?? '');
  while (at && !path.includes(at)) {
    path.push(at);
    at = movements.get(chain.next(at) ?? '');
  }
  if (at !== movement) return null;
  const own = path.flatMap((each): ChainStep[] => {
    const line = each.node.lines.find(({ kind }) => kind === chain.word);
    return each.place
      ? [{ movement: each, place: { ...each.place, span: line?.span ?? each.place.span } }]
      : [];
  });
  const [first, ...others] = own;
  if (!first || firstOf(own.map(({ place }) => place)) !== 0) return null;
  const names = [...path.map(({ key }) => key), movement.key].join(' → ');
  return {
    kind: chain.kind,
    message: say`The "${chain.word}" lines go in a circle: ${names}. Take one of them out.`,
    place: first.place,
    related: others.map((step) => ({
      place: step.place,
      message: say`"${step.movement.name}" is one of the circle.`,
    })),
    fixes: own.map((step) => asNote(chain.word, step)),
  };
}

/** What stands after two dashes is kept and means nothing. */
function asNote(word: string, { movement, place }: ChainStep): FindingFix {
  const { start } = place.span;
  return {
    title: say`Make the line "${word}" of ${movement.name} a note`,
    safe: false,
    edits: [{ file: place.file, span: { start, end: start }, newText: '-- ' }],
  };
}
