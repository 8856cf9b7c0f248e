/** The valid name that a mistyped word probably means. */

/** Edit distance: letters wrong, left out, added or swapped with their neighbour (Damerau 1964, restricted form). */
function editDistance(a: string, b: string): number {
  let beforeLast: readonly number[] = [];
  let last: readonly number[] = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      row[j] = Math.min(
        last[j] + 1,
        row[j - 1] + 1,
        last[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1),
        swapped ? beforeLast[j - 2] + 1 : Number.POSITIVE_INFINITY,
      );
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length];
}

/** A name without what is easily mixed up in spelling: case, and the marks between words. */
function plain(name: string): string {
  return name.toLowerCase().replace(/[-_\s]+/g, ' ');
}

/**
 * The name nearest to a written word; null where no name is near. A name is near where the word is its beginning, or has at
 * most one slip in three letters of it.
 */
export function nearestName(written: string, names: readonly string[]): string | null {
  if (written.length > 80) return null;
  const begun = names.filter((name) => plain(name).startsWith(plain(written)));
  if (written.length >= 3 && begun.length === 1) return begun[0];
  const distances = names.map((name) => editDistance(plain(written), plain(name)));
  const least = Math.min(...distances);
  const nearest = names[distances.indexOf(least)];
  if (nearest === undefined || least > Math.max(1, Math.floor(Math.max(written.length, nearest.length) / 3)))
    return null;
  return nearest;
}
