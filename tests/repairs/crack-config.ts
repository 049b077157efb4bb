/**
 * A crack of 45 mm with the bundled profile for cracks and its waits cut short: set-points, positions
 * and fields are the same.
 */

import profileFile from '../../src/app/defaults/crack.json' with { type: 'json' };
import jobFile from '../../src/app/defaults/crack-job.json' with { type: 'json' };
import { jobFileSchema } from '../../src/intake/sheet/job-sheet.ts';
import { type Profile, profileSchema } from '../../src/procedure/profile.ts';
import type { RepairConfig } from '../../src/procedure/repair/repair-state.ts';
import { DEFAULT_CONFIG } from '../configs.ts';

export const CRACK_PROFILE: Profile = profileSchema.parse(profileFile);
const { sheet } = jobFileSchema.parse(jobFile);

export const CRACK_PROFILE_FILE = {
  ...profileFile,
  sealCheck: { ...profileFile.sealCheck, watchS: 15 },
  pressure: { ...profileFile.pressure, dwellS: 120, restS: 5 },
  cure: { ...profileFile.cure, targetAtResinMJPerCm2: 1600, leastS: 60 },
};

export const CRACK: RepairConfig = {
  ...DEFAULT_CONFIG,
  profile: profileSchema.parse(CRACK_PROFILE_FILE),
  // A shallow break, so that the profile's dose is the target.
  job: { ...sheet, damage: { ...sheet.damage, depthM: 0.5e-3 } },
};
