/**
 * Questions about the sheet itself, the vehicle and its pane, in the order in which a person meets
 * them when walking round the vehicle. All positions are as the driver sees them.
 */
import type { IntakeSheet } from './intake-sheet.ts';
import type { Question } from './question.ts';

const MM = { kind: 'number', unit: 'mm' } as const;

/** Asked only where a chosen rule set depends on it. */
const onlyFor =
  (id: string, follows: unknown) =>
  ({ ruleSets }: IntakeSheet) =>
    ruleSets.includes(id) ? null : { follows };

const SHEET: readonly Question[] = [
  {
    path: 'reference',
    ask: 'What is the job’s reference?',
    help: 'A short name for the job, up to 40 characters, without names of people.',
    answer: { kind: 'text', mayBeEmpty: false },
  },
  {
    path: 'lookedOn',
    ask: 'On which day did you look at the damage?',
    help: 'As YYYY-MM-DD. Damage grows, so an old inspection may no longer hold.',
    answer: { kind: 'date' },
  },
  {
    path: 'ruleSets',
    ask: 'Which rules apply where the vehicle is used?',
    help:
      'Numbers separated by commas. All chosen rule sets apply together. With none chosen, no legal ' +
      'answer is given. --list-rules describes each set.',
    answer: { kind: 'rule-sets' },
  },
];

const VEHICLE: readonly Question[] = [
  {
    path: 'vehicle.class',
    ask: 'What kind of vehicle is it?',
    help: 'As stated in its papers. Some rules depend on it.',
    answer: {
      kind: 'choice',
      options: [
        { value: 'car', words: 'car' },
        { value: 'van', words: 'van' },
        { value: 'truck', words: 'lorry or truck' },
        { value: 'bus', words: 'bus or coach' },
        { value: 'tractor', words: 'tractor or work machine' },
        { value: 'motorcycle', words: 'motorcycle' },
        { value: 'other', words: 'something else' },
      ],
    },
  },
  {
    path: 'vehicle.grossMassKg',
    ask: 'What is its permitted gross mass?',
    help: 'In kg, from its papers. Some zones are wider above 3500 kg.',
    answer: { kind: 'number', unit: 'kg' },
  },
  {
    path: 'vehicle.seats',
    ask: 'How many seats has it, the driver’s among them?',
    help: 'As stated in its papers. Some rules are for vehicles with few seats.',
    answer: { kind: 'number', unit: 'seats' },
    skip: onlyFor('us-ny-inspection', 'unknown'),
  },
  {
    path: 'vehicle.commercialUse',
    ask: 'Does it carry goods or people for a trade?',
    help: 'Some rules bind commercial vehicles only.',
    answer: { kind: 'yes-no' },
    skip: onlyFor('us-49-cfr-393-60-c', 'unknown'),
  },
  {
    path: 'vehicle.beforeFirstSale',
    ask: 'Is it new and not yet sold to its first user?',
    help: 'Different rules apply to the glass of a vehicle that has not been sold yet.',
    answer: { kind: 'yes-no' },
  },
];

const PANE: readonly Question[] = [
  {
    path: 'pane.widthMm',
    ask: 'How wide is the pane?',
    help: 'Along the glass from edge to edge at its widest, in mm, with a tape laid on the glass.',
    answer: MM,
  },
  {
    path: 'pane.heightMm',
    ask: 'How high is the pane?',
    help: 'Along the glass from upper to lower edge, in mm.',
    answer: MM,
  },
  {
    path: 'pane.driverSide',
    ask: 'On which side does the driver sit?',
    help: 'Left or right as the driver sees it.',
    answer: {
      kind: 'choice',
      options: [
        { value: 'left', words: 'left' },
        { value: 'right', words: 'right' },
      ],
    },
  },
  {
    path: 'pane.wheelCentreMm',
    ask: 'How far is the middle of the steering wheel from the left edge of the pane?',
    help:
      'Seen from the driver’s seat, in mm, measured on the glass. The zone in front of the driver ' +
      'is centred on this line.',
    answer: MM,
  },
  {
    path: 'pane.seatCentreMm',
    ask: 'How far is the middle of the driver’s seat from the left edge of the pane?',
    help: 'In mm. Some sources centre the zone on the seat instead of the wheel, so both are asked.',
    answer: MM,
  },
  {
    path: 'pane.wheelTopMm',
    ask: 'How high above the lower edge of the pane does the driver see the top of the wheel?',
    help: 'In mm, where the line from the eye over the top of the steering wheel meets the glass.',
    answer: MM,
  },
  {
    path: 'pane.sweep',
    ask: 'How far from the left, right, upper and lower edge does the swept area end?',
    help:
      'Four distances in mm: left, right, top, bottom, separated by spaces. Take the farthest reach ' +
      'of the blades on each side.',
    answer: { kind: 'sides' },
  },
  {
    path: 'pane.seatLineMm',
    ask: 'How high above the lower edge of the pane is a level line 650 mm above the seat?',
    help: 'In mm on the glass. Measure 650 mm up from the lowest point of the unloaded driver’s seat.',
    answer: MM,
    skip: onlyFor('nl-rdw-2005-over-3500kg', 'unknown'),
  },
  {
    path: 'pane.mirror',
    ask: 'How far from the left, right, upper and lower edge does the inside mirror cover the pane?',
    help: 'Four distances in mm: left, right, top, bottom, separated by spaces.',
    answer: { kind: 'sides' },
    skip: onlyFor('ca-qc-c-24-2-r-32', 'unknown'),
  },
  {
    path: 'pane.dividedAtMm',
    ask: 'Is the windscreen divided by a bar, and how far is the bar from the left edge?',
    help: 'In mm to the middle of the bar; none where the windscreen is one pane.',
    answer: { kind: 'number', unit: 'mm', none: 'none' },
    skip: onlyFor('us-49-cfr-393-60-c', 'unknown'),
  },
];

export const VEHICLE_QUESTIONS: readonly Question[] = [...SHEET, ...VEHICLE, ...PANE];
