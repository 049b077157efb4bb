/**
 * Whole journals of every version, kept as the program of that time wrote them
 * (tests/journal/recorded). They must be readable, give the same decisions in a replay, and give
 * the same report: the figures below come from the reports written with them.
 */
import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { budgetLinesOf } from '../../src/app/papers/journal-budgets.ts';
import { settingsFromInputs } from '../../src/app/prepare/load-settings.ts';
import { replayJournal } from '../../src/app/replay.ts';
import { guidedFromInputs } from '../../src/cli/care/load-guided.ts';
import type { Checked } from '../../src/core/settings.ts';
import { type JournalContents, readJournal } from '../../src/journal/read-journal.ts';
import { GUIDED } from '../../src/procedure/guided/guided.ts';
import { REPAIR } from '../../src/procedure/repair/repair.ts';
import { reportDataOf } from '../../src/report/report-data.ts';

const recordedText = (name: string): string => {
  const file = new URL(`../journal/recorded/${name}.jsonl.gz`, import.meta.url);
  return gunzipSync(readFileSync(file)).toString('utf8');
};

function soundOf<T>(checked: Checked<T>): T {
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.value;
}

const recorded = (name: string): JournalContents =>
  soundOf(readJournal(recordedText(name), `${name}.jsonl`));

const reportOf = (contents: JournalContents) => reportDataOf(contents, budgetLinesOf(contents));

const REPAIRS = [
  ['repair-apart.version-1', 7607, 113],
  ['repair-apart.version-2', 7607, 113],
  ['repair-together.version-1', 7297, 104],
] as const;

describe.each(REPAIRS)('%s', (name, frames, events) => {
  const contents = recorded(name);

  test('is read whole, and its bytes are vouched for', () => {
    expect(contents).toMatchObject({ intact: true, torn: false, remarks: [] });
    expect([contents.ticks.length, contents.events.length]).toEqual([frames, events]);
    expect(contents.header.schema).toBe(`meniscus/journal@${name.at(-1)}`);
  });

  test('run again, decides the same until the resin, which then came before the seal test', () => {
    const config = soundOf(settingsFromInputs(contents.header.inputs, name));
    const { ticks, differences } = replayJournal(REPAIR, config, contents);
    expect(ticks).toBe(frames);
    expect(differences[0]?.timeS).toBe(chargedAtS(contents));
  });
});

const chargedAtS = ({ events }: JournalContents): number | undefined =>
  events.find((event) => event.kind === 'answer' && event.phase === 'charge-injector')?.timeS;

/** When the pump was first asked for less than a tenth. */
const firstCreepS = ({ ticks }: JournalContents): number | undefined =>
  ticks.find(({ actuators: { pumpRatio } }) => pumpRatio > 0 && pumpRatio < 0.1)?.frame.timeS;

describe.each(['calibration.version-1', 'calibration.version-2'])('%s', (name) => {
  test('is read whole, and run again decides the same but for a pump at rest', () => {
    const contents = recorded(name);
    const { inputs, procedure } = contents.header;
    expect(contents).toMatchObject({ intact: true, torn: false, remarks: [] });
    if (procedure === undefined) throw new Error('the journal of a repair');
    const config = soundOf(guidedFromInputs(procedure, inputs, name));
    const { ticks, events, differences } = replayJournal(GUIDED, config, contents);
    expect([ticks, events]).toEqual([2064, 20]);
    expect(differences[0]?.timeS).toBe(firstCreepS(contents));
    expect(differences.every(({ what }) => what === 'actuators')).toBe(true);
  });
});

// Recorded with the profile and plant of tests/cli/run/emulated.long.test.ts, on the simulated board.
describe('repair-gaps.version-2, whose lamp was interrupted to show its light', () => {
  const contents = recorded('repair-gaps.version-2');

  test('is read whole, with the breaks in the lamp', () => {
    expect(contents).toMatchObject({ intact: true, torn: false, remarks: [] });
    expect([contents.ticks.length, contents.events.length]).toEqual([5750, 99]);
    expect(timesLit(contents)).toBe(3);
  });

  test('run again, decides the same until the resin, which then came before the seal test', () => {
    const config = soundOf(settingsFromInputs(contents.header.inputs, 'repair-gaps'));
    const { ticks, differences } = replayJournal(REPAIR, config, contents);
    expect(ticks).toBe(5750);
    expect(differences[0]?.timeS).toBe(chargedAtS(contents));
  });

  test('says that the dose was met, by three interruptions that the sensor saw', () => {
    const { dose, verdict, measured, claims } = reportOf(contents);
    // Bottle files did not say then which light sets the resin.
    const reservations = 'process within its limits, with reservations';
    expect(verdict).toEqual({ process: reservations, grade: 'caution' });
    expect(claims.flatMap(({ id, state }) => (state === 'shown' ? [] : [[id, state]]))).toEqual([
      ['resin', 'not shown'],
    ]);
    expect(dose.doseJPerM2).toBeCloseTo(13_085.628, 3);
    expect(dose.uncertainty?.shownJPerM2).toBeCloseTo(12_289.283, 3);
    expect(dose.lampOnS).toBeCloseTo(64.35, 6);
    const gaps = measured.filter(({ name }) => name === 'gapsPassed' || name === 'gapsFailed');
    expect(gaps.map(({ name, value }) => [name, value])).toEqual([
      ['gapsPassed', 3],
      ['gapsFailed', 0],
    ]);
  });
});

// As that one, in the order of work in which the seal is tested before any resin is in.
describe('repair-dry-test.version-3', () => {
  const contents = recorded('repair-dry-test.version-3');
  const enteredAtS = (phase: string): number =>
    contents.events.find((event) => event.kind === 'phase' && event.phase === phase)?.timeS ?? 0;

  test('is read whole, with the seal tested before the resin', () => {
    expect(contents).toMatchObject({ intact: true, torn: false, remarks: [] });
    expect(contents.header.schema).toBe('meniscus/journal@3');
    expect(enteredAtS('seal-watch')).toBeGreaterThan(0);
    expect(enteredAtS('charge-injector')).toBeGreaterThan(enteredAtS('seal-watch'));
    expect(enteredAtS('evacuate')).toBeGreaterThan(enteredAtS('charge-injector'));
  });

  test('run again, decides the same to its end', () => {
    const config = soundOf(settingsFromInputs(contents.header.inputs, 'repair-dry-test'));
    const { differences } = replayJournal(REPAIR, config, contents);
    expect(differences).toEqual([]);
  });

  test('says that the dose was met and that nothing was left open', () => {
    const { verdict, claims, dose } = reportOf(contents);
    expect(verdict).toEqual({ process: 'process within its limits', grade: 'good' });
    expect(claims.filter(({ state }) => state !== 'shown')).toEqual([]);
    // From the report written with it: 1.33 J/cm2 at the sensor, at least 1.25.
    expect(dose.doseJPerM2 / 10_000).toBeCloseTo(1.33, 2);
    expect((dose.uncertainty?.shownJPerM2 ?? 0) / 10_000).toBeCloseTo(1.25, 2);
  });
});

/** How often the lamp was turned on. */
const timesLit = ({ ticks }: JournalContents): number =>
  ticks.filter(
    ({ actuators }, n) => actuators.lampEnabled && ticks[n - 1]?.actuators.lampEnabled === false,
  ).length;

describe('what their reports say', () => {
  test.each(['repair-apart.version-1', 'repair-apart.version-2'])(
    '%s: two doses, each by its own target',
    (name) => {
      const { doses, verdict, limits, uncertainties, measured } = reportOf(recorded(name));
      // Nothing but the light sensor was on record for a dose.
      expect(verdict).toEqual({ process: 'dose not shown to be met', grade: 'bad' });
      expect(doses.map(({ portion, verdict: found }) => [portion, found])).toEqual([
        ['fill', 'not shown'],
        ['pit', 'not shown'],
      ]);
      const [fill, pit] = doses;
      expect(fill?.doseJPerM2).toBeCloseTo(10_477.546, 3);
      expect(fill?.targetJPerM2).toBeCloseTo(9_959.309, 3);
      expect(fill?.uncertainty?.standardJPerM2).toBeCloseTo(313.33, 3);
      expect(fill?.lampOnS).toBeCloseTo(53.55, 6);
      expect(fill?.throughPitJPerM2).toBeCloseTo(2_337.631, 3);
      expect(pit?.doseJPerM2).toBeCloseTo(4_259.442, 3);
      expect(pit?.targetJPerM2).toBeCloseTo(4_049.153, 3);
      expect(pit?.targetSetBy).toBe('depth of the pit');
      expect(pit?.lampOnS).toBeCloseTo(22.05, 6);
      const lampOn = limits.filter(({ what }) => what.startsWith('lamp on'));
      expect(lampOn.map(({ what, within }) => [what, within])).toEqual([
        ['lamp on, fill', true],
        ['lamp on, pit', true],
      ]);
      const light = uncertainties.filter(({ channel }) => channel === 'irradiance');
      expect(light.map(({ value }) => value.toFixed(2))).toEqual(['195.66', '193.17']);
      expect(measured).toHaveLength(35);
    },
  );

  test('repair-together.version-1: one dose for both, and the hose that came off', () => {
    const { doses, verdict, alarms, measured } = reportOf(recorded('repair-together.version-1'));
    expect(verdict.process).toBe('dose not shown to be met');
    expect(doses).toHaveLength(1);
    expect(doses[0]).toMatchObject({ portion: 'fill and pit', verdict: 'not shown' });
    expect(doses[0]?.doseJPerM2).toBeCloseTo(10_478.817, 3);
    expect(doses[0]?.lampOnS).toBeCloseTo(53.55, 6);
    expect(alarms.map(({ alarm }) => alarm)).toEqual(['set-point-lost']);
    expect(measured).toHaveLength(25);
  });
});

test('version 2 knew three buttons: its presses are read, and what their ladder gave is not known', () => {
  const [header = ''] = recordedText('repair-apart.version-2').split('\n');
  const lines = [
    '[5,0.25,null,310,102,560,560,639,1,0,2,0,null]',
    '[6,0.3,null,310,102,560,560,639,1,0,2,0,null,"nym"]',
    '[7,0.35,null,310,102,560,560,639,1,0,2,0,null,"",[{"kind":"hold"}]]',
  ];
  const { ticks } = soundOf(readJournal(`${[header, ...lines].join('\n')}\n`, 'old.jsonl'));
  expect(ticks.map(({ frame }) => frame.pressed)).toEqual([[], ['no', 'yes', 'more'], []]);
  expect(ticks.map(({ frame }) => frame.ladder)).toEqual([null, null, null]);
  expect(ticks[2]?.requests).toEqual([{ kind: 'hold' }]);
});

describe('what version 1 wrote differently', () => {
  const [header = '', ...lines] = recordedText('repair-apart.version-1').split('\n');
  const read = (...more: readonly string[]) =>
    soundOf(readJournal(`${[header, ...more].join('\n')}\n`, 'old.jsonl'));

  test('a line without the host’s time says that nobody knows it', () => {
    const plain = '[5,0.25,null,310,102,560,560,639,1,0,2,0]';
    const pressed = '[6,0.3,null,310,102,560,560,639,1,0,2,0,"ym"]';
    const asked = '[7,0.35,null,310,102,560,560,639,1,0,2,0,"",[{"kind":"hold"}]]';
    const { ticks } = read(plain, pressed, asked);
    expect(ticks.map(({ frame }) => frame.hostTimeS)).toEqual([null, null, null]);
    expect(ticks.map(({ frame }) => frame.pressed)).toEqual([[], ['yes', 'more'], []]);
    expect(ticks[2]?.requests).toEqual([{ kind: 'hold' }]);
  });

  test('a line with it keeps it', () => {
    const { ticks } = read(
      '[5,0.25,null,310,102,560,560,639,1,0,2,0,null]',
      '[6,0.3,null,310,102,560,560,639,1,0,2,0,1000.5,"n"]',
      '[7,0.35,null,310,102,560,560,639,1,0,2,0,"NaN"]',
    );
    expect(ticks.map(({ frame }) => frame.hostTimeS)).toEqual([0.25, 1000.5, Number.NaN]);
  });

  test('a name for each portion becomes a name and its portion', () => {
    const old = [
      ['atmospherePa', 'atmospherePa', null],
      ['doseJPerM2', 'doseJPerM2', null],
      ['fillDoseJPerM2', 'doseJPerM2', 'fill'],
      ['pitLampOnS', 'lampOnS', 'pit'],
      ['pitDepthTargetJPerM2', 'depthTargetJPerM2', 'pit'],
      ['breakTargetJPerM2', 'depthTargetJPerM2', 'fill'],
      ['fillThroughPitJPerM2', 'throughPitJPerM2', 'fill'],
      ['openResinShareRatio', 'openResinShareRatio', 'fill'],
      ['pitOpenResinShareRatio', 'openResinShareRatio', 'pit'],
    ] as const;
    const { events } = read(
      ...old.map(([name]) =>
        JSON.stringify({ event: { timeS: 1, kind: 'measured', name, value: 2 } }),
      ),
    );
    expect(events).toEqual(
      old.map(([, name, portion]) => ({ timeS: 1, kind: 'measured', name, portion, value: 2 })),
    );
  });

  test('the resin that waited is of both where one exposure cured both', () => {
    const { events } = recorded('repair-together.version-1');
    const waited = events.filter((e) => e.kind === 'measured' && e.name === 'openResinShareRatio');
    expect(waited).toMatchObject([{ portion: null }]);
  });

  test('a spoilt line is still refused, by its place and value', () => {
    const spoilt = lines[0]?.replace('[0,0,null,309', '[0,0,null,"x"');
    const broken = readJournal(`${header}\n${spoilt}\n`, 'old.jsonl');
    expect(broken.ok).toBe(false);
    if (!broken.ok) {
      expect(broken.problems[0]).toMatchObject({ path: 'line 2, tick.pressure', value: '"x"' });
    }
  });
});
