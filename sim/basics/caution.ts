/** The caution under every answer, printed or on a page. */

export const CAUTION =
  'It estimates; it does not clear a flight. The range safety officer, the launch site\u2019s rules and local aviation law decide.';
