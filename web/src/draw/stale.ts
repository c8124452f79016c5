// What is old: an answer belongs to the question it was asked with; until the answer to the newest question is here, it
// stays and is marked.

/** Whether an answer is for another question than the one on the page. */
export function isStale<Q extends object>(answered: Q | undefined, asked: Q): boolean {
  if (answered === undefined) return false;
  return (Object.keys(asked) as (keyof Q)[]).some((key) => asked[key] !== answered[key]);
}

/** Amounts of the cuts that move an edge, by their act [mm]. */
export function amounts(steps: readonly { act: string; amount?: number | undefined; unit: string; tail: string }[]): Record<string, number> {
  const out: Record<string, number> = {};
  for (const step of steps) {
    if (step.amount === undefined || step.unit !== 'mm' || !/^(roof|floor) /.test(step.act)) continue;
    out[step.act] = (out[step.act] ?? 0) + step.amount;
  }
  return out;
}

/** How far edges stand from where the drawing has them [mm, downward], by "port edge". */
export function ghosts(wanted: Record<string, number>, drawn: Record<string, number>, edges: readonly { name: string; act: string; raise_is: number }[]): Record<string, number> {
  const out: Record<string, number> = {};
  for (const edge of edges) {
    const by = (wanted[edge.act] ?? 0) - (drawn[edge.act] ?? 0);
    if (Math.abs(by) > 1e-6) out[edge.name] = by * edge.raise_is;
  }
  return out;
}
