/**
 * A crack of 45 mm on the simulated board, with the bundled profile for cracks and its waits cut
 * short: set-points, positions and fields are the same. Its record is kept as the journal would hold
 * it.
 */
import type { Fault } from '../../sim/faults/faults.ts';
import profileFile from '../../src/app/defaults/crack.json' with { type: 'json' };
import jobFile from '../../src/app/defaults/crack-job.json' with { type: 'json' };
import { jobFileSchema } from '../../src/intake/sheet/job-sheet.ts';
import type { JournalContents } from '../../src/journal/read-journal.ts';
import type { JournalTick } from '../../src/journal/tick-line.ts';
import { type Profile, profileSchema } from '../../src/procedure/profile.ts';
import type { RepairConfig } from '../../src/procedure/repair/repair-state.ts';
import { runRepair } from '../bench.ts';
import { DEFAULT_CONFIG } from '../configs.ts';
import { DONE, headerOf } from '../report/journal-data.ts';

export const CRACK_PROFILE: Profile = profileSchema.parse(profileFile);
const { sheet } = jobFileSchema.parse(jobFile);

const brief = {
  ...profileFile,
  sealCheck: { ...profileFile.sealCheck, watchS: 15 },
  pressure: { ...profileFile.pressure, dwellS: 120, restS: 5 },
  cure: { ...profileFile.cure, targetAtResinMJPerCm2: 1600, leastS: 60 },
};

export const CRACK: RepairConfig = {
  ...DEFAULT_CONFIG,
  profile: profileSchema.parse(brief),
  // A shallow break, so that the profile's dose is the target.
  job: { ...sheet, damage: { ...sheet.damage, depthM: 0.5e-3 } },
};

export function runCrack(faults: readonly Fault[] = []) {
  const ticks: JournalTick[] = [];
  const run = runRepair({
    config: CRACK,
    scenario: { faults },
    watch: ({ frame, requests, state }) => {
      ticks.push({ frame, requests, actuators: state.commanded });
      return false;
    },
  });
  const { unit } = headerOf().inputs;
  const contents: JournalContents = {
    header: headerOf({ unit, profile: brief, job: jobFile }),
    ticks,
    events: run.events,
    snapshots: run.snapshots,
    end: { ...DONE, outcome: run.outcome === 'clear' ? 'clear' : 'mark-remains' },
    footer: { ...DONE, frames: ticks.length, events: run.events.length, sha256: '' },
    intact: true,
    torn: false,
    sha256: '',
    remarks: [],
  };
  return { run, contents };
}
