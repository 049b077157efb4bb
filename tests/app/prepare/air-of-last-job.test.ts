/** The air that a job is compared with: that of the unit's last complete job in the records. */
import { expect, test } from 'vitest';
import { withCalibrations } from '../../../src/app/prepare/calibrations-in-force.ts';
import { readCare } from '../../../src/app/prepare/care-records-read.ts';
import type { RepairBody } from '../../../src/store/chain/repair-body.ts';
import { DEFAULT_SETTINGS, DEFAULT_UNIT } from '../../configs.ts';
import { addRepair, opened, recordsFolder } from '../../store/records-folder.ts';

const ofUnit = { name: DEFAULT_UNIT.name, serial: 'demo-1' };
const STOPPED: RepairBody['result'] = {
  verdict: 'process not completed',
  grade: 'bad',
  claims: null,
  outcome: null,
  endReason: 'stopped-by-person',
  why: 'demo',
};

function airComparedWith(...jobs: readonly Partial<RepairBody>[]): number | null {
  const folder = recordsFolder();
  const store = opened(folder);
  for (const [n, job] of jobs.entries()) {
    addRepair(folder, store, `demo-job-${n}`, { unit: ofUnit, ...job });
  }
  const cared = { unit: DEFAULT_UNIT, simulated: true, today: '2026-04-01' };
  const used = withCalibrations(DEFAULT_SETTINGS, readCare(folder, cared).facts);
  if (!used.ok) throw new Error(JSON.stringify(used.problems));
  return used.value.settings.config.unit.airLastJobPa;
}

test('is not known before the unit’s first job', () => {
  expect(airComparedWith()).toBeNull();
  expect(airComparedWith({ unit: { name: 'another', serial: null } })).toBeNull();
});

test('is that of the last job, to a tenth of a kilopascal', () => {
  expect(airComparedWith({ airPa: 95_000 }, { airPa: 100_640 })).toBe(100_600);
});

test('is not that of a job that was stopped: its air may not have been believed', () => {
  expect(airComparedWith({ airPa: 100_640 }, { airPa: 74_600, result: STOPPED })).toBe(100_600);
});
