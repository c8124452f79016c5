// Labels in a row that may not touch: each as near to its place as the others let it.

export interface Wanted {
  /** where its middle would like to be */
  at: number;
  width: number;
}

interface Cluster {
  from: number;
  members: number[];
  width: number;
}

/** Middles in the order given; ordered by `at`, `gap` apart, between two ends when they fit at all. */
export function spread(wanted: readonly Wanted[], gap: number, low: number, high: number): number[] {
  const order = wanted.map((_, k) => k).sort((a, b) => wanted[a]!.at - wanted[b]!.at);
  const clusters: Cluster[] = [];
  for (const k of order) {
    const one = wanted[k]!;
    clusters.push(settle({ from: 0, members: [k], width: one.width }, wanted, gap, low, high));
    for (;;) {
      const last = clusters.at(-1)!;
      const before = clusters.at(-2);
      if (before === undefined || before.from + before.width + gap <= last.from + 1e-9) break;
      clusters.splice(-2, 2, settle(joined(before, last, gap), wanted, gap, low, high));
    }
  }
  const out = new Array<number>(wanted.length).fill(0);
  for (const cluster of clusters) {
    let x = cluster.from;
    for (const k of cluster.members) {
      out[k] = x + wanted[k]!.width / 2;
      x += wanted[k]!.width + gap;
    }
  }
  return out;
}

function joined(a: Cluster, b: Cluster, gap: number): Cluster {
  return { from: 0, members: [...a.members, ...b.members], width: a.width + gap + b.width };
}

/** Puts a cluster where its members miss their places least. */
function settle(cluster: Cluster, wanted: readonly Wanted[], gap: number, low: number, high: number): Cluster {
  let along = 0;
  let sum = 0;
  for (const k of cluster.members) {
    sum += wanted[k]!.at - (along + wanted[k]!.width / 2);
    along += wanted[k]!.width + gap;
  }
  const free = sum / cluster.members.length;
  const from = Math.max(low, Math.min(high - cluster.width, free));
  return { ...cluster, from };
}

/** Whether labels fit in one row at all. */
export function fits(wanted: readonly Wanted[], gap: number, low: number, high: number): boolean {
  const sum = wanted.reduce((total, one) => total + one.width, 0) + gap * Math.max(0, wanted.length - 1);
  return sum <= high - low;
}
