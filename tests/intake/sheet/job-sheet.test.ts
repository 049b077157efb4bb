import { describe, expect, test } from 'vitest';
import builtInJob from '../../../src/app/defaults/job.json' with { type: 'json' };
import { checkSettings, problemLine } from '../../../src/core/settings.ts';
import {
  jobFileSchema,
  jobSheetSchema,
  withoutPeople,
} from '../../../src/intake/sheet/job-sheet.ts';

type Change = {
  readonly damage?: Readonly<Record<string, unknown>>;
  readonly resin?: Readonly<Record<string, unknown>>;
};

const check = ({ damage, resin }: Change) =>
  checkSettings(
    jobSheetSchema,
    {
      ...builtInJob,
      damage: { ...builtInJob.damage, ...damage },
      resin: { ...builtInJob.resin, ...resin },
    },
    'job.json',
  );

function problems(change: Change): readonly string[] {
  const checked = check(change);
  return checked.ok ? [] : checked.problems.map(problemLine);
}

const CURVE = { criticalExposureMJPerCm2: 80, penetrationDepthMm: 0.5 };

describe('a job sheet', () => {
  test('brings depth and working curve to SI', () => {
    const checked = check({ damage: { depthMm: 2 }, resin: CURVE });
    expect(checked).toMatchObject({
      ok: true,
      value: {
        damage: { depthM: 0.002 },
        resin: { curve: { criticalJPerM2: 800, penetrationM: 0.0005 } },
      },
    });
  });

  test('may leave out depth and working curve, or say that they are not known', () => {
    const nothing = { ok: true, value: { damage: { depthM: null }, resin: { curve: null } } };
    const unknown = { criticalExposureMJPerCm2: null, penetrationDepthMm: null };
    expect(check({ damage: { depthMm: null }, resin: unknown })).toMatchObject(nothing);
    const { depthMm: _, ...damage } = builtInJob.damage;
    const { criticalExposureMJPerCm2: __, penetrationDepthMm: ___, ...resin } = builtInJob.resin;
    const bare = checkSettings(jobSheetSchema, { ...builtInJob, damage, resin }, 'job.json');
    expect(bare).toMatchObject(nothing);
  });

  test('with half a working curve is refused, and the other half is asked for', () => {
    expect(problems({ resin: { ...CURVE, penetrationDepthMm: null } })).toEqual([
      'job.json: resin.penetrationDepthMm is null; accepted: a number beside resin.criticalExposureMJPerCm2, or both null',
    ]);
    expect(problems({ resin: { ...CURVE, criticalExposureMJPerCm2: null } })).toEqual([
      'job.json: resin.criticalExposureMJPerCm2 is null; accepted: a number beside resin.penetrationDepthMm, or both null',
    ]);
  });

  test.each([
    ['damage', 'depthMm', 0.1, 3, 'mm'],
    ['resin', 'criticalExposureMJPerCm2', 0.1, 1000, 'mJ/cm2'],
    ['resin', 'penetrationDepthMm', 0.05, 10, 'mm'],
  ] as const)('takes %s.%s from %d to %d and nothing beyond', (part, field, min, max, unit) => {
    for (const value of [min, max]) expect(problems({ [part]: { [field]: value } })).toEqual([]);
    for (const value of [min * 0.99, max * 1.01]) {
      expect(problems({ [part]: { [field]: value } })).toEqual([
        `job.json: ${part}.${field} is ${value}; accepted: a number from ${min} to ${max} ${unit}`,
      ]);
    }
  });
});

describe('the people of a job file', () => {
  const whole = { ...builtInJob, vehicle: 'DEMO 1', customer: 'demo customer' };

  test('are read beside the sheet, which does not know them', () => {
    const checked = checkSettings(jobFileSchema, whole, 'job.json');
    expect(checked).toMatchObject({
      ok: true,
      value: {
        people: { technician: 'demo technician', vehicle: 'DEMO 1', customer: 'demo customer' },
      },
    });
    expect(JSON.stringify(checked.ok && checked.value.sheet)).not.toContain('demo technician');
    expect(JSON.stringify(withoutPeople(whole))).not.toMatch(
      /demo technician|DEMO 1|demo customer/,
    );
  });

  test('need no vehicle and no customer, but a technician', () => {
    const { technician: _, ...nobody } = builtInJob;
    expect(checkSettings(jobFileSchema, builtInJob, 'job.json').ok).toBe(true);
    const refused = checkSettings(jobFileSchema, nobody, 'job.json');
    expect(refused.ok ? [] : refused.problems.map(problemLine)).toEqual([
      'job.json: technician is missing; accepted: a text of 1 to 40 characters',
    ]);
  });

  test('of an older journal are taken no notice of', () => {
    const checked = checkSettings(jobSheetSchema, builtInJob, 'journal: job');
    expect(checked.ok && 'technician' in checked.value).toBe(false);
    expect(checkSettings(jobSheetSchema, withoutPeople(builtInJob), 'journal: job')).toEqual(
      checked,
    );
  });
});
