import { distance } from 'fastest-levenshtein';

/**
 * The candidate that was probably meant: the one with the fewest changed letters, at most two or a third of the
 * word; the same letters in another order count as one change. Where none is so near, the only name that has the
 * written one as its beginning or end (or the other way round). Null when nothing is near or two are equally near.
 */
export function nearestName<Candidate extends { readonly key: string }>(
  written: string,
  candidates: readonly Candidate[],
): Candidate | null {
  const wanted = written.toLowerCase();
  const most = Math.max(2, Math.floor(wanted.length / 3));
  let best: Candidate | null = null;
  let bestDistance = most + 1;
  let tied = false;
  for (const candidate of candidates) {
    if (Math.abs(candidate.key.length - wanted.length) > most) continue;
    const changes = changesBetween(wanted, candidate.key);
    if (changes > bestDistance) continue;
    if (changes === bestDistance && best !== null && best.key !== candidate.key) tied = true;
    else if (changes < bestDistance) {
      best = candidate;
      bestDistance = changes;
      tied = false;
    }
  }
  if (best !== null && !tied) return best;
  if (best === null) return partOf(wanted, candidates);
  return null;
}

function changesBetween(a: string, b: string): number {
  const letters = (text: string) => [...text].sort().join('');
  const changes = distance(a, b);
  return changes === 2 && letters(a) === letters(b) ? 1 : changes;
}

/** `squat` for the only name that has it as a whole word at its start or end. */
function partOf<Candidate extends { readonly key: string }>(
  wanted: string,
  candidates: readonly Candidate[],
): Candidate | null {
  if (wanted.length < 4) return null;
  const near = candidates.filter(
    ({ key }) =>
      key.startsWith(`${wanted} `) ||
      key.endsWith(` ${wanted}`) ||
      wanted.startsWith(`${key} `) ||
      wanted.endsWith(` ${key}`),
  );
  return near.length === 1 ? (near[0] as Candidate) : null;
}
