/** The pilot, a person: how long the order takes from the cue. */

/** Time in s from the cue to the order: the reaction and, where attention was elsewhere, the lapse. */
export function humanDelay(reaction: number, lapses: boolean, lapseLength: number): number {
  return reaction + (lapses ? lapseLength : 0);
}
