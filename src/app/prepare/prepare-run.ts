/**
 * Settles everything before a repair begins: settings, bottles of resin, intake and its assessment,
 * the unit's care with its calibrations, and overrides by a named person. It returns the settings
 * as used with messages and facts to record, or every reason for a refusal.
 */
import { z } from 'zod';
import { CARE_ITEM_NAMES } from '../../care/due-item.ts';
import { type Checked, problemLine, type SettingsProblem } from '../../core/settings.ts';
import { lightChainProblems } from '../../procedure/repair/cure/light-chain.ts';
import builtInIntake from '../defaults/intake.json' with { type: 'json' };
import builtInResin from '../defaults/resin.json' with { type: 'json' };
import { type CareOverride, UNNAMED_OVERRIDE } from './care-gate.ts';
import { type Bottle, bottleRemarks, readBottle } from './job-bottle.ts';
import type { JobFacts } from './job-facts.ts';
import type { IntakeSource, JobIntake } from './job-intake.ts';
import { legRuleOf } from './leg-rule.ts';
import {
  type Bottles,
  type LoadedSettings,
  loadSettings,
  type SettingsPaths,
} from './load-settings.ts';
import { type JobGate, type JobOverrideItem, jobGate, type NamedOverride } from './overrides.ts';
import { namesIn } from './personal.ts';
import { type BuiltIn, readJson, type Source, sourceName } from './read-settings.ts';

export interface PrepareOptions extends SettingsPaths {
  readonly records: string;
  readonly intake?: Source;
  readonly resin?: Source;
  readonly pitResin?: Source;
  readonly care?: string;
  readonly agreement?: string;
  readonly override: readonly NamedOverride[];
  /** The person who overrides. */
  readonly by?: string;
}

export interface When {
  readonly simulated: boolean;
  /** YYYY-MM-DD in the local time zone, and in UTC, which dates the records. */
  readonly today: string;
  readonly todayUtc: string;
}

export type Prepared =
  | {
      readonly ok: true;
      readonly settings: LoadedSettings;
      readonly about: JobFacts;
      /** Messages before the job begins, one line each. */
      readonly warnings: readonly string[];
    }
  | { readonly ok: false; readonly lines: readonly string[] };

const refused = (problems: readonly SettingsProblem[]): Prepared => ({
  ok: false,
  lines: problems.map(problemLine),
});

export async function prepareRun(options: PrepareOptions, when: When): Promise<Prepared> {
  if (options.override.length > 0 && (options.by ?? '').trim() === '') {
    return { ok: false, lines: [UNNAMED_OVERRIDE] };
  }
  const bottles = bottlesOf(options, when);
  if (!bottles.ok) return refused(bottles.problems);
  const loaded = loadSettings(options, bottles.value);
  if (!loaded.ok) return refused(loaded.problems);
  const named = namesInReasons(options, loaded.value);
  if (named.length > 0) return refused(named);
  const source = intakeSource(options, when);
  if (source !== null && !source.ok) return refused(source.problems);
  const today = dayOfJob(when, bottles.value, source?.value.raw);
  const intake = await intakeOf(source?.value ?? null, options, loaded.value, today);
  if (!intake.ok) return refused(intake.problems);
  const gates = jobGates(options, loaded.value, bottles.value, intake.value, { ...when, today });
  const { careForRun } = await import('./care-for-run.ts');
  const care = careForRun(loaded.value, {
    simulated: when.simulated,
    today: when.todayUtc,
    records: options.records,
    care: options.care,
    overrides: options.override.filter(isCareOverride),
    by: options.by ?? null,
  });
  const against = gates.flatMap((gate) => (gate.ok ? [] : gate.lines));
  const lines = [...against, ...(care.ok ? lightProblems(options, care.settings) : care.lines)];
  if (!care.ok || lines.length > 0) return { ok: false, lines };
  const overrides = [...gates.flatMap((gate) => (gate.ok ? gate.used : [])), ...care.overrides];
  return {
    ok: true,
    settings: withWhoOverrode(withLegRule(care.settings, intake.value), overrides, options.by),
    about: {
      day: today,
      intake: intake.value?.about ?? null,
      resin: bottles.value.fill?.raw ?? null,
      pitResin: bottles.value.pit?.raw ?? null,
      calibrations: care.calibrations,
      care: care.state,
      agreement: options.agreement ?? null,
      overrides,
    },
    warnings: [
      ...(intake.value === null
        ? ['no intake sheet: this damage was not assessed against rules']
        : []),
      ...gates.flatMap((gate) => (gate.ok ? gate.warnings : [])),
      ...care.warnings,
    ],
  };
}

/** With the calibrations in force: they say for which light the radiometer reads right. */
const lightProblems = (
  { unit = 'built-in unit.json', job = BUILT_IN_JOB, profile }: SettingsPaths,
  { config }: LoadedSettings,
): readonly string[] =>
  lightChainProblems(config, {
    unit,
    job: sourceName(job),
    profile: profile === undefined ? 'built-in profile.json' : sourceName(profile),
  }).map(problemLine);

const withLegRule = (settings: LoadedSettings, intake: JobIntake | null): LoadedSettings => ({
  ...settings,
  config: { ...settings.config, ...legRuleOf(intake?.about.legLimit ?? null) },
});

const BUILT_IN_JOB = 'built-in job.json';

const isCareOverride = (one: NamedOverride): one is CareOverride =>
  (CARE_ITEM_NAMES as readonly string[]).includes(one.item);

/** The demo job on the simulated board has a demo bottle and a demo intake sheet. */
const isDemo = ({ job }: PrepareOptions, { simulated }: When): boolean =>
  simulated && job === undefined;

const DEMO_RESIN: BuiltIn = { name: 'built-in resin.json', content: builtInResin };

function bottlesOf(options: PrepareOptions, when: When): Checked<Bottles> {
  const source = options.resin ?? (isDemo(options, when) ? DEMO_RESIN : undefined);
  const [fill, pit] = [source, options.pitResin].map((one) =>
    one === undefined ? null : readBottle(one),
  );
  const problems = [fill, pit].flatMap((one) => (one == null || one.ok ? [] : one.problems));
  if (problems.length > 0) return { ok: false, problems };
  const bottle = (read: typeof fill): Bottle | null => (read?.ok ? read.value : null);
  return { ok: true, value: { fill: bottle(fill), pit: bottle(pit) } };
}

/**
 * A simulated run has no day of its own. Its day is the latest date in its files, so that files
 * made today can be tried, and the same files are judged the same on any day.
 */
function dayOfJob({ simulated, today }: When, { fill, pit }: Bottles, sheet: unknown): string {
  if (!simulated) return today;
  const looked = z.looseObject({ lookedOn: z.iso.date() }).safeParse(sheet);
  const dates = [today, fill?.resin.openedOn, pit?.resin.openedOn, looked.data?.lookedOn];
  return dates.reduce<string>((last, date) => (date != null && date > last ? date : last), today);
}

async function intakeOf(
  source: IntakeSource | null,
  { job }: PrepareOptions,
  { config, papers }: LoadedSettings,
  today: string,
): Promise<Checked<JobIntake | null>> {
  if (source === null) return { ok: true, value: null };
  // Drawing and rules are loaded only where there is a sheet.
  const { jobIntake } = await import('./job-intake.ts');
  const jobFile = sourceName(job ?? BUILT_IN_JOB);
  return jobIntake(source, config.job, jobFile, today, papers.drawing);
}

function intakeSource(options: PrepareOptions, when: When): Checked<IntakeSource> | null {
  const { intake } = options;
  if (typeof intake === 'object') {
    return { ok: true, value: { file: intake.name, raw: intake.content } };
  }
  if (intake !== undefined) {
    const read = readJson(intake);
    return read.ok ? { ok: true, value: { file: intake, raw: read.value } } : read;
  }
  if (!isDemo(options, when)) return null;
  return { ok: true, value: { file: 'built-in intake.json', raw: builtInIntake } };
}

function jobGates(
  { override }: PrepareOptions,
  { config }: LoadedSettings,
  { fill, pit }: Bottles,
  intake: JobIntake | null,
  when: Pick<When, 'today' | 'simulated'>,
): readonly JobGate[] {
  const gate = (item: JobOverrideItem, against: readonly string[], notes: readonly string[]) => {
    const made = jobGate(item, against, override);
    return made.ok ? { ...made, warnings: [...notes, ...made.warnings] } : made;
  };
  const bottle = (item: 'resin' | 'pit-resin', of: Bottle | null): JobGate => {
    const { lampPeakNm } = config.unit;
    const use = item === 'resin' ? 'fill' : 'pit';
    if (of === null) return gate(item, [], []);
    const { against, notes } = bottleRemarks(of, use, config.job, { ...when, lampPeakNm });
    return gate(item, against, notes);
  };
  return [
    gate('assessment', intake?.against ?? [], []),
    bottle('resin', fill),
    bottle('pit-resin', pit),
  ];
}

/** Reasons and agreement stay in the record for good; names are kept where they can be removed. */
function namesInReasons(
  { override, agreement, by }: PrepareOptions,
  { people }: LoadedSettings,
): readonly SettingsProblem[] {
  const all = by === undefined ? people : { ...people, 'person of --by': by };
  const texts = [
    ...override.map(({ item, reason }) => ['--override', item, reason] as const),
    ...(agreement === undefined ? [] : [['--agreement', '', agreement] as const]),
  ];
  return texts.flatMap(([file, path, text]) =>
    namesIn(text, all).map((name) => ({
      file,
      path,
      value: JSON.stringify(text),
      accepted: `a text without the ${name}: it stays in the record for good`,
    })),
  );
}

function withWhoOverrode(
  settings: LoadedSettings,
  overrides: readonly NamedOverride[],
  by: string | undefined,
): LoadedSettings {
  if (overrides.length === 0 || by === undefined) return settings;
  return { ...settings, people: { ...settings.people, overrideBy: by } };
}
