/** What every command says of a scenario before anything else: hazards to people, and what was left at perfect. */
import type { Warning } from '../basics/warning.js';
import { leafPaths } from './definition/leaves.js';
import { inputNamed, settingNamed } from './lookup.js';
import type { Scenario } from './scenario.js';

/** Codes of the warnings about people: shown first and always, by every command. */
export const HAZARDS: readonly string[] = ['keep-out', 'no keep-out', 'no arming guard', 'no motor stop'];

/** Hazards to people that the scenario itself shows. */
export function hazardWarnings(scenario: Scenario, whose = ''): readonly Warning[] {
  const { leftOut } = scenario;
  const circles = settingNamed(scenario, 'site.keep_out');
  const warnings: readonly (readonly [boolean, Warning])[] = [
    [
      circles === null || circles.length === 0,
      {
        code: 'no keep-out',
        text: `The scenario${whose} names no place where people stand (site.keep_out): nothing here says how often the can comes down among them.`,
        advice:
          'Write a keep-out circle for the spectators, the crew and every road, and show the figure to the range safety officer.',
      },
    ],
    [
      leftOut.includes('stabiliser.arming_guard'),
      {
        code: 'no arming guard',
        text: `The motors${whose} may start at any rate and tilt: there is no arming guard.`,
        advice: "Have a way to stop the motors at once, in a named person's hand.",
      },
    ],
    [
      (settingNamed(scenario, 'plan.motor_stop') ?? '') === '',
      {
        code: 'no motor stop',
        text: `The scenario${whose} names nobody who can stop the motors at once, and no means to do it (plan.motor_stop).`,
        advice:
          'Without one do not put a pack into the can: name the person and the switch, and try the switch before every flight.',
      },
    ],
  ];
  return warnings.flatMap(([holds, warning]) => (holds ? [warning] : []));
}

/** Cues by which no person orders the throttle-up, so that a person's lapse and reaction matter to nothing. */
const NOBODY = 'automatic';

/** What stands at perfect, because the file says nothing of it or says 0 without a reason. */
export function leftAtPerfect(scenario: Scenario): readonly { readonly path: string; readonly words: string }[] {
  const cue = settingNamed(scenario, 'plan.cue');
  const nobody = cue === NOBODY || (cue === 'timer' && settingNamed(scenario, 'plan.timer_start') === 'by itself');
  return leafPaths().flatMap(({ path, entry }) => {
    const words = 'perfect' in entry ? entry.perfect : undefined;
    if (words === undefined || (nobody && (path === 'pilot.reaction' || path === 'pilot.lapse'))) return [];
    const input = inputNamed(scenario, path);
    const perfect = input?.value.form === 'fixed' && input.value.value === 0 && input.note === '';
    return perfect ? [{ path, words }] : [];
  });
}

export function perfectWarning(scenario: Scenario, whose = ''): readonly Warning[] {
  const left = leftAtPerfect(scenario);
  if (left.length === 0) return [];
  return [
    {
      code: 'left at perfect',
      text: `Taken as perfect${whose}, because the scenario says nothing else: ${left.map(({ path, words }) => `${words} (${path})`).join(', ')}.`,
      advice: `Write a law or trials for each, as { trials: 40, failures: 0 }; or { value: none, note: why it cannot happen }. \`fallmargin init\` shows a start.`,
    },
  ];
}

/** What a command says of a scenario of which it flies no study: the hazards, and what was left at perfect. */
export function scenarioWarnings(scenario: Scenario): readonly Warning[] {
  return [...hazardWarnings(scenario), ...perfectWarning(scenario)];
}
