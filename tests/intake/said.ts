/** The answers of a person who answers every question, and of a file that leaves two open. */
import { answersOf } from '../../src/intake/sheet/questions.ts';
import { sheetOf } from './sheet.ts';

export const WHOLE_CONVERSATION: readonly string[] = [
  'van-7',
  'today',
  '1',
  // The vehicle and its pane.
  '2',
  '3000',
  'n',
  '55',
  'y',
  '812',
  'left',
  '390',
  '385',
  '150',
  '60 110 45 70',
  // The damage.
  '1',
  '3',
  '12',
  'u',
  '0',
  '3',
  '1',
  '1',
  'n',
  'n',
  'n',
  // Its place.
  '905',
  '310',
  '0',
  'none',
  'u',
  'n',
  'n',
  'n',
  // Beside the vehicle.
  '23',
  '22',
  '45',
  '100.6',
  '',
];

const { 'damage.pitMm': _pit, 'place.antenna': _antenna, ...rest } = answersOf(sheetOf());
export const FILE_OF_GAPS = rest;
