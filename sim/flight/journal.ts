/** The journal of a flight: it notes what the record needs. Times are in s from ejection, NaN where the event never came. */

export interface Journal {
  cueHeight: number;
  orderTime: number;
  orderHeight: number;
  speedAtOrder: number;
  rateAtOrder: number;
  /** The motors were told to start; the first rotor gave thrust; all rotors ran. */
  startTime: number;
  poweredTime: number;
  runningTime: number;
  uprightTime: number;
  arrestTime: number;
  arrestHeight: number;
  /** The motors were told to start though an arm was not open. */
  armsLeftTime: number;
  /** The arming guard was asked. */
  guardTime: number;
  /** The motors stopped for good; the pack was empty then. */
  stopTime: number;
  emptyTime: number;
  firedTime: number;
  lowestVoltage: number;
  peakRate: number;
}

export function createJournal(): Journal {
  const journal = {} as Journal;
  clearJournal(journal);
  return journal;
}

export function clearJournal(journal: Journal): void {
  journal.cueHeight = Number.NaN;
  journal.orderTime = Number.NaN;
  journal.orderHeight = Number.NaN;
  journal.speedAtOrder = Number.NaN;
  journal.rateAtOrder = Number.NaN;
  journal.startTime = Number.NaN;
  journal.poweredTime = Number.NaN;
  journal.runningTime = Number.NaN;
  journal.uprightTime = Number.NaN;
  journal.arrestTime = Number.NaN;
  journal.arrestHeight = Number.NaN;
  journal.armsLeftTime = Number.NaN;
  journal.guardTime = Number.NaN;
  journal.stopTime = Number.NaN;
  journal.emptyTime = Number.NaN;
  journal.firedTime = Number.NaN;
  journal.lowestVoltage = Number.NaN;
  journal.peakRate = 0;
}
