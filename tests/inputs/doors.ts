/**
 * Every door through which data come in from outside, one row each: a sound sample and the code that
 * takes it. `take` throws where a door lets a bad value in or refuses one without naming it.
 */

import type { z } from 'zod';
import { decodeFrame, readFrame } from '../../hal/firmata/frame-decoder.ts';
import { FRESH_FILTER, stepFilter } from '../../hal/firmata/message-filter.ts';
import {
  encodeFields,
  KINDS,
  LIMITS_REPORT_LAYOUT,
  openMessage,
} from '../../hal/firmata/protocol.ts';
import { faultSchema } from '../../sim/faults/faults.ts';
import { worldSchema } from '../../sim/plant/world.ts';
import type { Chance } from '../../sim/random.ts';
import advice from '../../src/app/defaults/advice.json' with { type: 'json' };
import care from '../../src/app/defaults/care.json' with { type: 'json' };
import careDemo from '../../src/app/defaults/care-demo.json' with { type: 'json' };
import guided from '../../src/app/defaults/guided.json' with { type: 'json' };
import intake from '../../src/app/defaults/intake.json' with { type: 'json' };
import job from '../../src/app/defaults/job.json' with { type: 'json' };
import profile from '../../src/app/defaults/profile.json' with { type: 'json' };
import resin from '../../src/app/defaults/resin.json' with { type: 'json' };
import unit from '../../src/app/defaults/unit.json' with { type: 'json' };
import { parseCareBody } from '../../src/care/care-entry.ts';
import { careSettingsSchema } from '../../src/care/care-settings.ts';
import { unitSettingsSchema } from '../../src/control/unit-settings.ts';
import { ALARM_IDS } from '../../src/core/alarm-ids.ts';
import { CHANNELS, FULL_SCALE_COUNTS } from '../../src/core/frame.ts';
import { type Checked, checkSettings } from '../../src/core/settings.ts';
import { adviceRulesSchema } from '../../src/intake/advice/advice-rules.ts';
import { resinSchema } from '../../src/intake/resin.ts';
import ruleSet from '../../src/intake/rule-sets/europe/gb-bs-au-242a-1998.json' with {
  type: 'json',
};
import { parseRuleSet } from '../../src/intake/rules/rule-set.ts';
import { intakeSheetSchema } from '../../src/intake/sheet/intake-sheet.ts';
import { DAMAGE_TYPES, jobFileSchema, jobSheetSchema } from '../../src/intake/sheet/job-sheet.ts';
import { readJournal } from '../../src/journal/read-journal.ts';
import { catalogueSchemaFor } from '../../src/panel/catalogue.ts';
import english from '../../src/panel/catalogues/en/display.json' with { type: 'json' };
import { guidedSettingsSchema } from '../../src/procedure/guided/guided-settings.ts';
import { profileSchema } from '../../src/procedure/profile.ts';
import {
  CHAIN_START,
  encodeEntry,
  nextEntry,
  parseEntry,
} from '../../src/store/chain/chain-entry.ts';
import { frameBytes, refusalBytes, unitMessage } from '../hal/firmata/scripted-firmware.ts';
import { shortJournal } from '../report/journal-data.ts';
import { spoiltBytes, spoiltData, spoiltText } from './hostile.ts';

export interface Door {
  readonly name: string;
  /** Takes one spoilt input. */
  readonly take: (chance: Chance) => 'accepted' | 'refused';
  /** Takes the sound sample. */
  readonly takeSound: () => 'accepted' | 'refused';
  /** How many of a thousand inputs are for this door. */
  readonly weight: number;
}

const FILE = 'demo-file.json';

/** What is refused names the file, the value and what is accepted; what passes holds no NaN. */
function promised(checked: Checked<unknown>): 'accepted' | 'refused' {
  if (checked.ok) {
    if (holdsNaN(checked.value)) throw new Error('NaN got in');
    return 'accepted';
  }
  const { problems } = checked;
  const unnamed = problems.filter(
    ({ file, value, accepted }) => !file.includes(FILE) || value === '' || accepted === '',
  );
  if (problems.length === 0 || unnamed.length > 0) {
    throw new Error(`refused without a word for it: ${JSON.stringify(problems)}`);
  }
  return 'refused';
}

function holdsNaN(value: unknown): boolean {
  if (typeof value === 'number') return Number.isNaN(value);
  return typeof value === 'object' && value !== null && Object.values(value).some(holdsNaN);
}

/** A settings file: nothing but what its schema says passes. */
function dataDoor(
  name: string,
  sample: unknown,
  check: (input: unknown) => Checked<unknown>,
): Door {
  return {
    name,
    weight: 25,
    take: (chance) => promised(check(spoiltData(sample, chance))),
    takeSound: () => promised(check(sample)),
  };
}
const schemaDoor = (name: string, sample: unknown, schema: z.ZodType): Door =>
  dataDoor(name, sample, (input) => checkSettings(schema, input, FILE));

const JOURNAL = shortJournal();
const ENTRY = encodeEntry(
  nextEntry(CHAIN_START, {
    at: '2026-03-01T09:00:00.000Z',
    kind: 'care',
    id: 'demo-1',
    body: { what: 'demo' },
    personalSha256: null,
  }),
);
const takeEntry = (line: string) => (parseEntry(line) === null ? 'refused' : 'accepted');

const takeText = (text: string): 'accepted' | 'refused' => promised(readJournal(text, FILE));

const MESSAGES: readonly (readonly number[])[] = [
  frameBytes(),
  frameBytes({ sequence: 1, timeMs: 1050, presses: 1 }),
  // With a check that holds, as a board with other firmware might send it.
  frameBytes({ pressure: 1024 }),
  frameBytes({ timeMs: 2 ** 32 }),
  refusalBytes(0x11, 0),
  unitMessage(
    encodeFields(KINDS.limitsReport, LIMITS_REPORT_LAYOUT, {
      verdict: 0,
      offender: 127,
      taken: 0,
      pressureCeiling: 700,
      heatSinkFloor: 90,
      longestLampOnS: 600,
      leaseMs: 500,
      glassFloor: 200,
    }),
  ),
  [0xf9, 2, 5],
  [0xf0, 0x79, 1, 0, 109, 0, 0xf7],
  [0xf0, 0x71, 65, 0, 0xf7],
];

/** All the way from the line to a sample: what gets through is in range. */
function takeBytes(bytes: readonly number[]): 'accepted' | 'refused' {
  let seen: 'accepted' | 'refused' = 'refused';
  const { state, messages } = stepFilter(FRESH_FILTER, bytes);
  if (state.pending.length > 1024) throw new Error('keeps a message without an end');
  for (const message of messages) {
    const opened = openMessage(message.slice(2, -1));
    const fields = opened.ok && opened.kind === KINDS.frame ? readFrame(opened.body) : null;
    if (fields === null) continue;
    const { sample } = decodeFrame(null, fields);
    const strange = CHANNELS.filter((channel) => {
      const counts = sample.counts[channel];
      return !Number.isInteger(counts) || counts < 0 || counts > FULL_SCALE_COUNTS;
    });
    if (strange.length > 0 || !Number.isFinite(sample.boardMs)) {
      throw new Error(`a frame out of range: ${JSON.stringify(sample)}`);
    }
    seen = 'accepted';
  }
  return seen;
}

export const DOORS: readonly Door[] = [
  {
    name: 'the serial line',
    weight: 500,
    take: (chance) => takeBytes(spoiltBytes(MESSAGES, chance)),
    takeSound: () => takeBytes(frameBytes()),
  },
  {
    name: 'the reader of journals',
    weight: 100,
    take: (chance) => takeText(spoiltText(JOURNAL, chance)),
    takeSound: () => takeText(JOURNAL),
  },
  {
    name: 'the reader of the chain',
    weight: 50,
    take: (chance) => takeEntry(spoiltText(ENTRY, chance)),
    takeSound: () => takeEntry(ENTRY),
  },
  schemaDoor('unit', unit, unitSettingsSchema),
  schemaDoor('profile', profile, profileSchema),
  schemaDoor('job file', job, jobFileSchema),
  schemaDoor('job sheet', job, jobSheetSchema),
  schemaDoor('intake sheet', intake, intakeSheetSchema),
  schemaDoor('bottle', resin, resinSchema),
  schemaDoor('care settings', care, careSettingsSchema),
  schemaDoor('guided settings', guided, guidedSettingsSchema),
  schemaDoor('rules of advice', advice, adviceRulesSchema),
  dataDoor('rule set', ruleSet, (input) => parseRuleSet(input, FILE)),
  schemaDoor('catalogue', english, catalogueSchemaFor({ alarms: ALARM_IDS, damage: DAMAGE_TYPES })),
  schemaDoor('plant', { schema: 'meniscus/plant@1', gas: { exponent: 1.2 } }, worldSchema),
  schemaDoor(
    'fault',
    { kind: 'sensor-offset', channel: 'pressure', amount: 5, from: { atS: 3 }, lastsS: 2 },
    faultSchema,
  ),
  dataDoor('care entry', careDemo.entries[1], (input) => parseCareBody(input, FILE)),
];
