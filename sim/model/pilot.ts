/** The person between the cue and the order. */

/** Time in s from the cue to the order: reaction and, where attention was elsewhere, the lapse. */
export function humanDelay(reaction: number, lapses: boolean, lapseLength: number): number {
  return reaction + (lapses ? lapseLength : 0);
}
