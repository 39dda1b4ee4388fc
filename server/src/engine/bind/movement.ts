import type { MovementLine, MovementNode } from '../../../../grammar/index.js';
import type { Implement } from '../kit.js';
import type { Movement } from '../model.js';

function implementOf(node: MovementNode): Implement {
  const written = find(node, 'with');
  if (!written) return { kind: 'bodyweight' };
  const { value } = written.equipment;
  if (value === 'machine') return { kind: 'machine', key: written.machine?.key ?? '' };
  if (value === 'barbell') return { kind: 'barbell', bar: find(node, 'bar')?.bar.text ?? null };
  return { kind: value };
}

function find<Kind extends MovementLine['kind']>(node: MovementNode, kind: Kind) {
  return node.lines.find((line): line is Extract<MovementLine, { kind: Kind }> => line.kind === kind);
}

/**
 * A movement as its section describes it. Without `with:` it is a bodyweight movement, without `stage:` it is open
 * from the start (`learn`), without `pattern:` it is `other`.
 */
export function bindMovement(node: MovementNode, file: string | null): Movement {
  const estimate = find(node, 'estimate');
  const lifts = find(node, 'lifts');
  return {
    key: node.name.key,
    name: node.name.text,
    pattern: find(node, 'pattern')?.pattern.value ?? 'other',
    implement: implementOf(node),
    stage: find(node, 'stage')?.stage.value ?? 'learn',
    easier: find(node, 'easier')?.movement.key ?? null,
    harder: find(node, 'harder')?.movement.key ?? null,
    estimate: estimate ? { share: estimate.percent.value / 100, of: estimate.of.key } : null,
    liftsShare: lifts ? lifts.percent.value / 100 : null,
    cue: find(node, 'cue')?.text.text ?? null,
    place: file === null ? null : { file, span: node.name.span },
    node,
  };
}
