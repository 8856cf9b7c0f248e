/** What `fallmargin` alone prints: what to do first. */
export const FIRST_STEPS = `fallmargin estimates how likely a can-sized payload that falls, unfolds its rotor
arms and lands under thrust hits the ground instead, and at what height it must
throttle up. It estimates; it does not clear a flight.

Start here:
  fallmargin init payload.yaml        write a scenario to fill in
  fallmargin check payload.yaml       read it back, with the hand calculation
  fallmargin assess payload.yaml      fly thousands of descents, write the report
  fallmargin trace payload.yaml --flight 17     look at one of them
  fallmargin compare payload.yaml other.yaml    which of two designs is safer
  fallmargin limits payload.yaml      the page for the day: height by wind and wait

  fallmargin --help                   every command; <command> --help its options
`;
