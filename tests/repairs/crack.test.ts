/** A crack of 45 mm: three positions of the injector, two fields of the lamp, one record. */
import { describe, expect, test } from 'vitest';
import { replayJournal } from '../../src/app/replay.ts';
import type { Event } from '../../src/core/events.ts';
import { REPAIR } from '../../src/procedure/repair/repair.ts';
import { reportDataOf } from '../../src/report/report-data.ts';
import { CRACK } from './crack-config.ts';
import { runCrack } from './crack-job.ts';

const moves = (events: readonly Event[]) =>
  events.flatMap((one) => (one.kind === 'moved' ? [`${one.what} ${one.to} of ${one.of}`] : []));
const phases = (events: readonly Event[]) =>
  events.flatMap((one) => (one.kind === 'phase' ? [one.phase] : []));

describe('a crack of 45 mm', () => {
  const { run, contents } = runCrack();
  const report = reportDataOf(contents, []);
  const { truth } = run.board.view();

  test('is completed clear and hard without an alarm', () => {
    expect([run.end, run.outcome, run.alarms]).toEqual(['completed', 'clear', []]);
    expect(run.board.view()).toMatchObject({ tacky: false, clear: true });
    expect(run.board.view().longestFrontRatio).toBeGreaterThan(0.96);
  });

  test('has its end stopped before the pit is cleaned, as the sheet says where it lies', () => {
    const seen = phases(run.events);
    expect(seen[seen.indexOf('inspect') + 1]).toBe('end-stop');
    expect(seen[seen.indexOf('inspect') + 2]).toBe('clean-pit');
  });

  test('has the injector moved on twice and the lamp once, and each move on record', () => {
    expect(moves(run.events)).toEqual(['injector 2 of 3', 'injector 3 of 3', 'lamp 2 of 2']);
  });

  test('has its seal tested at each position, and pressed before there is resin in the crack', () => {
    const tested = run.events.flatMap((event) =>
      event.kind === 'seal-finding' ? [event.under ?? 'vacuum'] : [],
    );
    expect(tested).toEqual(['vacuum', 'pressure', 'vacuum', 'vacuum']);
    expect(phases(run.events).filter((phase) => phase === 'charge-injector')).toHaveLength(3);
  });

  test('gives each field its own dose, and each of them is met', () => {
    expect(report.doses.map(({ field, verdict }) => [field, verdict])).toEqual([
      [{ number: 1, of: 2 }, 'met'],
      [{ number: 2, of: 2 }, 'met'],
    ]);
    for (const dose of report.doses) {
      // 1600 mJ/cm2 at the resin: the profile of this job.
      expect(dose.atResin?.doseJPerM2).toBeGreaterThan(16_000);
      expect(dose.lampOnS).toBeGreaterThanOrEqual(60);
      expect(dose.uncertainty?.shownJPerM2).toBeLessThan(dose.doseJPerM2);
    }
  });

  test('has had no less than its dose anywhere in the plant', () => {
    const { fillJPerM2, laterJPerM2 } = truth.resinDose;
    expect(laterJPerM2).toHaveLength(1);
    for (const jPerM2 of [fillJPerM2, ...laterJPerM2]) expect(jPerM2).toBeGreaterThan(16_000);
    expect(truth.imbalance().resinRatio).toBeLessThan(1e-9);
    expect(truth.imbalance().gasRatio).toBeLessThan(1e-9);
  });

  test('claims the dose of each field, by the shield that opened as the lamp was moved', () => {
    const doses = report.claims.filter(({ id }) => id === 'dose');
    expect(doses.map(({ field, objections }) => [field?.number, objections])).toEqual([
      [1, []],
      [2, []],
    ]);
    expect(doses.map(({ support }) => support.some(({ by }) => by === 'shield switch'))).toEqual([
      false,
      true,
    ]);
  });

  test('claims seal and fill by what was seen at each position', () => {
    for (const id of ['seal', 'filled'] as const) {
      const claim = report.claims.find((one) => one.id === id);
      const lines = claim?.support.map(({ line }) => line).join('\n') ?? '';
      expect(lines).toContain('position 1 of 3');
      expect(lines).toContain('position 2 of 3');
      expect(claim?.state).toBe('shown');
    }
  });

  test('replayed from its frames gives the same decisions', () => {
    const result = replayJournal(REPAIR, CRACK, contents);
    expect(result.ticks).toBeGreaterThan(10_000);
    expect(result.differences).toEqual([]);
  });
});

describe('a lamp that is said to be moved and is not', () => {
  const { run, contents } = runCrack([
    { kind: 'hands-idle', from: { phase: 'move-lamp', afterS: 0 }, lastsS: 12 },
  ]);
  const report = reportDataOf(contents, []);

  test('is not lit again: the shield was not seen open, and the job ends with a reason', () => {
    expect(run.alarms).toEqual(['shield-not-shown']);
    expect(run.end).toBe('stopped-by-person');
    expect(run.board.view().truth.resinDose.laterJPerM2).toEqual([0]);
  });

  test('leaves the first field’s dose shown, and no dose of the second nor of the job', () => {
    const [first, second] = report.claims.filter(({ id }) => id === 'dose');
    expect(first?.state).toBe('shown');
    expect(second?.objections.map(({ id }) => id)).toEqual(['not-cured', 'lamp-not-moved']);
    expect(report.doses.map(({ verdict }) => verdict)).toEqual(['met', 'not cured']);
    expect(report.dose.verdict).toBe('not cured');
  });
});
