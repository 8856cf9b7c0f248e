/** The runs that make.mjs makes: every command, every kind of output, every exit code but those of a bug and of Ctrl-C. */

const COMMANDS = 'init inputs check assess merge compare limits trace fit reconstruct learn report completion'.split(
  ' ',
);
const LOG = 'burdock-flight-log.csv';
const LOG_WORDS = ['--air-temperature', '35 degC', '--sensor-offset', '10 mm'];
const SMALL = ['--flights', '200', '--threads', '1'];
const PLANNED = [...SMALL, '--heights', 'planned'];
const TABLE = ['--rows', 'wind.speed=2 m/s,6 m/s', '--columns', 'pad.wait=10 min,30 min', '--heights', '150:300:50'];

/** The long ones first, so that two at a time end together. */
export function jobs(scenarios) {
  const flown = scenarios.filter((name) => name.endsWith('.yaml'));
  return [...studies(), ...assessed(flown), ...evidence(), ...small(flown), ...mistakes()];
}

function studies() {
  const set = ['--set', 'can.mass=700 g', '--seed', 'b', '--date', '1 May'];
  const part = (index, whole, ...more) => [
    ...['assess', 'burdock.yaml', '--flights', '300', '--heights', '150,250', '--out', 'half', '--threads', '1'],
    ...['--part', `${index}/${whole}`, ...more],
  ];
  return [
    job('demo', ['assess', 'burdock.yaml', '--flights', '300', '--threads', '1', '--csv', '--out', 'demo']),
    job(
      'compare',
      ['compare', 'burdock-picture.yaml', 'burdock.yaml', ...SMALL, '--out', 'cmp'],
      ['report', 'cmp.json', '--out', 'again'],
    ),
    job('teasel-search', ['assess', 'teasel.yaml', '--flights', '100', '--threads', '2']),
    job(
      'heights',
      [
        'assess',
        'burdock.yaml',
        '--flights',
        '250',
        '--heights',
        '130,190,250',
        '--assurance',
        '90%',
        '--threads',
        '2',
        '--csv',
      ],
      ['report', 'burdock.json', '--out', 'again'],
      [
        'assess',
        'burdock.yaml',
        '--flights',
        '250',
        '--heights',
        '150:250:50',
        '--acceptable-risk',
        '1 %',
        '--threads',
        '1',
        ...set,
      ],
      ['assess', 'burdock.yaml', ...PLANNED, '--json'],
      ['assess', 'burdock.yaml', ...PLANNED, '--quiet', '--out', 'quiet'],
    ),
    job('until', [
      'assess',
      'burdock.yaml',
      '--until',
      '4%',
      '--heights',
      'planned',
      '--threads',
      '2',
      '--out',
      'until',
    ]),
    job(
      'parts',
      part(1, 2),
      part(2, 2),
      ['merge', 'half-1-of-2.part', 'half-2-of-2.part', '--csv', '--out', 'whole', '--threads', '1'],
      ['merge', 'half-1-of-2.part'],
      part(1, 2, '--resume', 'half-1-of-2.part'),
    ),
    job(
      'compare-planned',
      ['compare', 'burdock.yaml', 'burdock-late-arms.yaml', ...SMALL, '--planned-only', '--json'],
      [
        'compare',
        'burdock.yaml',
        'burdock.yaml',
        ...SMALL,
        '--planned-only',
        '--set-b',
        'can.mass=900 g',
        '--matters',
        '2 %',
      ],
      ['compare', 'burdock.yaml', 'burdock.yaml', '--flights', '200', '--planned-only', '--quiet', '--threads', '2'],
      ['assess', 'burdock.yaml', ...PLANNED, '--out', 'a'],
      ['assess', 'burdock-automatic.yaml', ...PLANNED, '--out', 'b'],
      ['compare', 'a.json', 'b.json', '--out', 'of-results'],
    ),
    job(
      'limits',
      ['limits', 'burdock.yaml', '--flights', '150', '--threads', '1', ...TABLE, '--out', 'card'],
      ['report', 'card.json', '--out', 'again'],
      [
        'limits',
        'burdock.yaml',
        '--flights',
        '60',
        '--threads',
        '2',
        ...TABLE.slice(0, 4),
        '--heights',
        '250,280',
        '--json',
      ],
    ),
  ];
}

/** Each other scenario of the checkout at its planned height. */
function assessed(flown) {
  return flown
    .filter((name) => name !== 'burdock.yaml')
    .map((name) => job(`assess-${name.replace('.yaml', '')}`, ['assess', name, ...PLANNED, '--csv']));
}

function evidence() {
  return [
    job(
      'learn',
      [
        'learn',
        'burdock.yaml',
        '--flight',
        LOG,
        ...LOG_WORDS,
        '--worlds',
        '100',
        '--threads',
        '2',
        '--out',
        'l',
        '--into',
        'after.yaml',
      ],
      ['check', 'after.yaml'],
      ['learn', 'burdock.yaml', '--flight', LOG, '--worlds', '100', '--threads', '1', '--json', '--seed', 'b'],
    ),
    job(
      'reconstruct',
      ['reconstruct', LOG, '--scenario', 'burdock.yaml', ...LOG_WORDS, '--out', 'both'],
      ['reconstruct', LOG, '--ejection-height', '720 m +- 20 m', '--planned', '250 m', '--out', 'alone'],
      ['reconstruct', LOG, '--scenario', 'burdock.yaml', '--json'],
    ),
    job(
      'fit',
      ['fit', 'burdock-reaction-times.csv', '--column', 'reaction_s', '--unit', 's', '--out', 'times'],
      [
        'fit',
        'burdock-reaction-times.csv',
        '--column',
        'reaction_s',
        '--unit',
        's',
        '--path',
        'pilot.reaction',
        '--into',
        'burdock.yaml',
      ],
      ['fit', 'burdock-reaction-times.csv', '--column', 'reaction_s', '--unit', 's', '--family', 'samples', '--json'],
      [
        'fit',
        'burdock-reaction-times.csv',
        '--column',
        'reaction_s',
        '--unit',
        's',
        '--family',
        'triangular',
        '--quiet',
      ],
      ['fit', '--trials', '40', '--failures', '1', '--path', 'arms.stuck', '--out', 'trials'],
      ['fit', 'burdock-thrust-stand.csv', '--thrust-stand', '--density', '1.15 kg/m^3', '--out', 'stand'],
      ['check', 'burdock.yaml'],
    ),
    job(
      'trace',
      ['trace', 'burdock.yaml', '--flight', '17', '--out', 't'],
      ['trace', 'burdock.yaml', '--flight', 'explore:3@120'],
      ['trace', 'burdock.yaml', '--flight', 'nominal', '--set', 'can.mass=800 g'],
      ['trace', 'burdock-parachute.yaml', '--flight', 'explore:5@40', '--seed', 'b'],
      ['trace', 'burdock-picture.yaml', '--flight', '2'],
      ['trace', 'teasel.yaml', '--flight', '4'],
    ),
  ];
}

function small(flown) {
  return [
    job('help', [], ['--help'], ['--version'], ...COMMANDS.map((command) => [command, '--help'])),
    job(
      'check',
      ...flown.flatMap((name) => [
        ['check', name],
        ['check', name, '--json'],
      ]),
    ),
    job('init', ['init'], ['init'], ['init', '--force'], ['init', 'other.yaml'], ['check', 'other.yaml'], ['check']),
  ];
}

/** What people get wrong, in the command line and in files. */
function mistakes() {
  const files = {
    'unknown.yaml': 'extends: burdock.yaml\ncan:\n  mas: 600 g\n',
    'unit.yaml': 'extends: burdock.yaml\ncan:\n  mass: 600 m\nsite:\n  temperature: hot\n',
    'family.yaml': 'extends: burdock.yaml\ncan:\n  mass: { normall: { mean: 600 g, sd: 5 g }, source: guess }\n',
    'syntax.yaml': 'title: [\ncan: {\n',
    'lonely.yaml': 'title: Nothing else\n',
    'circle.yaml': 'extends: circle.yaml\n',
    'orphan.yaml': 'extends: nowhere.yaml\n',
    'empty.yaml': '',
    'not-a-result.json': '{ "a": 1 }\n',
    'broken.json': '{ "a": \n',
    'text.csv': 'a,b\n1,x\n2,\n',
    'broken.part': 'nothing\n',
  };
  const scenarios = Object.keys(files).filter((name) => name.endsWith('.yaml'));
  return [
    {
      name: 'mistakes',
      files,
      commands: [
        ...[...scenarios, 'absent.yaml', '.'].map((name) => ['check', name]),
        ['assess', 'lonely.yaml'],
        ['asess', 'burdock.yaml'],
        ['assess', 'burdock.yaml', '--flihgts', '10'],
        ['assess', 'burdock.yaml', '--flights', 'abc'],
        ['assess', 'burdock.yaml', '--flights', '-5'],
        ['assess', 'burdock.yaml', '--flights'],
        ['assess', 'burdock.yaml', '--heights', '300:80:20'],
        ['assess', 'burdock.yaml', '--heights', '5 ft'],
        ['assess', 'burdock.yaml', '--until', '5%', '--flights', '200'],
        ['assess', 'burdock.yaml', '--part', '3/2'],
        ['assess', 'burdock.yaml', '--acceptable-risk', '120 %'],
        ['assess', 'burdock.yaml', '--set', 'can.mas=590 g'],
        ['assess', 'burdock.yaml', '--set', 'can.mass'],
        ['assess', 'burdock.yaml', '--threads', '0'],
        ['assess', 'burdock.yaml', '--resume', 'broken.part'],
        ['assess', 'burdock.yaml', 'teasel.yaml'],
        ['assess', 'burdock.yaml', '--out', 'absent/base', '--flights', '10'],
        ['compare', 'burdock.yaml', 'unit.yaml'],
        ['compare', 'burdock.yaml'],
        ['compare', 'not-a-result.json', 'not-a-result.json'],
        ['limits', 'burdock.yaml', '--rows', 'wind.sped'],
        ['limits', 'burdock.yaml', '--rows', 'wind.speed=2 kg'],
        ['trace', 'burdock.yaml'],
        ['trace', 'burdock.yaml', '--flight', 'seventeen'],
        ['fit', 'text.csv', '--column', 'c'],
        ['fit', 'text.csv', '--column', 'b', '--unit', 's'],
        ['fit', '--trials', '3', '--failures', '5'],
        ['reconstruct', 'text.csv'],
        ['reconstruct', 'absent.csv'],
        ['learn', 'burdock.yaml'],
        ['learn', 'burdock.yaml', '--flight', LOG, '--worlds', '60'],
        ['merge', 'broken.part'],
        ['merge'],
        ['report', 'not-a-result.json'],
        ['report', 'broken.json'],
        ['report', 'absent.json'],
        ['completion', 'fish'],
      ],
    },
  ];
}

function job(name, ...commands) {
  return { name, commands };
}
