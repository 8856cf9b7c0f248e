/** Two places between which a condition turns once: it fails at the first and holds at the second, whichever lies higher. */
export interface Bracket {
  readonly fails: number;
  readonly holds: number;
}

/**
 * How far a bracket is narrowed: to neighbouring whole numbers, by a number of halvings, or until its width is at or
 * under this share of its upper end (for places above 0).
 */
export type Narrowness = 'whole numbers' | { readonly halvings: number } | { readonly share: number };

/**
 * Bisection: halves the bracket again and again and keeps the half in which the condition turns, so that k halvings
 * leave 2^-k of its width. Nothing but the one turn is asked of the condition, and no step can leave the bracket.
 *
 * Source: Press, Teukolsky, Vetterling and Flannery, Numerical Recipes, 3rd ed. 2007, section 9.1 (cited from memory).
 */
export function bisect(bracket: Bracket, condition: (at: number) => boolean, until: Narrowness): Bracket {
  let { fails, holds } = bracket;
  for (let halvings = 0; !isNarrow(fails, holds, halvings, until); halvings++) {
    const middle = (fails + holds) / 2;
    const at = until === 'whole numbers' ? Math.floor(middle) : middle;
    if (condition(at)) holds = at;
    else fails = at;
  }
  return { fails, holds };
}

function isNarrow(fails: number, holds: number, halvings: number, until: Narrowness): boolean {
  const width = Math.abs(holds - fails);
  if (until === 'whole numbers') return width <= 1;
  return 'halvings' in until ? halvings >= until.halvings : !(width > until.share * Math.max(fails, holds));
}

/**
 * The bracket of a condition that holds from somewhere on: `first`, 2 `first`, 4 `first` ... are tried up to `most`.
 *
 * @param fails a place under `first` at which the condition fails
 * @returns null where it fails at `most` too
 */
export function doubledBracket(
  { fails, first, most }: { readonly fails: number; readonly first: number; readonly most: number },
  condition: (at: number) => boolean,
): Bracket | null {
  let last = fails;
  for (let at = Math.min(first, most); ; at = Math.min(2 * at, most)) {
    if (condition(at)) return { fails: last, holds: at };
    if (at === most) return null;
    last = at;
  }
}
