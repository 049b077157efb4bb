/**
 * Questions about the position of the damage on the pane, its surroundings, and what was measured
 * beside the vehicle. Camera, heater, head-up display and antenna are asked one by one: the vehicle
 * maker's own map of each takes precedence, and "don't know" stops the job until a person has
 * looked.
 */
import type { Question } from './question.ts';

const MM = { kind: 'number', unit: 'mm' } as const;
const YES_NO = { kind: 'yes-no' } as const;

const PLACE: readonly Question[] = [
  {
    path: 'place.fromLeftMm',
    ask: 'How far is the damage from the left edge of the pane?',
    help: 'In mm, as the driver sees it, to the pit; for a crack, to its middle.',
    answer: MM,
  },
  {
    path: 'place.fromTopMm',
    ask: 'How far is the damage from the upper edge of the pane?',
    help: 'In mm, to the pit; for a crack, to its middle.',
    answer: MM,
  },
  {
    path: 'place.repairsOnPane',
    ask: 'How many repairs are on this pane already?',
    help: 'Also count those that are hardly visible; 0 for none.',
    answer: { kind: 'number', unit: 'repairs' },
  },
  {
    path: 'place.earlierRepairMm',
    ask: 'How far is the nearest earlier repair?',
    help: 'In mm, from rim to rim; none where there is none.',
    answer: { kind: 'number', unit: 'mm', none: 'none' },
    skip: ({ place }) => (place.repairsOnPane === 0 ? { follows: null } : null),
  },
  {
    path: 'place.otherDamageMm',
    ask: 'How far is the nearest other damage?',
    help: 'In mm, from rim to rim; none where there is none.',
    answer: { kind: 'number', unit: 'mm', none: 'none' },
  },
  {
    path: 'place.cameraField',
    ask: 'Does it lie where a camera or sensor looks through the pane?',
    help: 'The vehicle maker’s map shows where that is. Without the map, answer u.',
    answer: YES_NO,
  },
  {
    path: 'place.heatedField',
    ask: 'Does it lie among heater wires or in a heated field?',
    help: 'Look for fine wires or a coating against the light.',
    answer: YES_NO,
  },
  {
    path: 'place.headUpDisplay',
    ask: 'Does it lie where a head-up display is shown?',
    help: 'Switch the display on and look from the driver’s seat.',
    answer: YES_NO,
  },
  {
    path: 'place.antenna',
    ask: 'Does it lie on an antenna in the glass?',
    help: 'Thin printed lines, often along an edge.',
    answer: YES_NO,
  },
];

const CONDITIONS: readonly Question[] = [
  {
    path: 'conditions.glassC',
    ask: 'How warm is the glass at the damage?',
    help: 'In degrees Celsius.',
    answer: { kind: 'number', unit: 'C' },
  },
  {
    path: 'conditions.airC',
    ask: 'How warm is the air?',
    help: 'In degrees Celsius, in the shade.',
    answer: { kind: 'number', unit: 'C' },
  },
  {
    path: 'conditions.humidityPercent',
    ask: 'How humid is the air?',
    help: 'Relative humidity in %. It shows whether water condenses on cold glass.',
    answer: { kind: 'number', unit: '%' },
  },
  {
    path: 'conditions.airKPa',
    ask: 'What is the local air pressure?',
    help: 'In kPa absolute as a local barometer shows it, not reduced to sea level.',
    answer: { kind: 'number', unit: 'kPa' },
  },
  {
    path: 'notes',
    ask: 'Anything else to note?',
    help: 'Up to 500 characters, without names of people; Enter for nothing.',
    answer: { kind: 'text', mayBeEmpty: true },
  },
];

export const SITE_QUESTIONS: readonly Question[] = [...PLACE, ...CONDITIONS];
