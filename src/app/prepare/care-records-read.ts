/**
 * Reads one unit's care from the chain of records: its care entries and what its repairs used. It
 * reads the chain itself, so that a damaged database hides nothing that is due. Lines and entries
 * that cannot be read are reported, not skipped silently.
 */
import { existsSync } from 'node:fs';
import { z } from 'zod';
import { parseCareBody } from '../../care/care-entry.ts';
import type { CareFacts, CareRecord, RepairUse, UnitFigures } from '../../care/care-records.ts';
import type { UnitSettings } from '../../control/unit-settings.ts';
import { numberAt, textAt } from '../../core/fields.ts';
import { problemLine } from '../../core/settings.ts';
import { type ChainEntry, parseEntry } from '../../store/chain/chain-entry.ts';
import { chainLines } from '../../store/chain/chain-file.ts';
import { chainPath } from '../../store/chain/paths.ts';
import demoCare from '../defaults/care-demo.json' with { type: 'json' };

export interface CaredUnit {
  readonly unit: UnitSettings;
  readonly simulated: boolean;
  readonly today: string;
}

export interface CareRead {
  readonly facts: CareFacts;
  /** Remarks about the record for a person, one line each. */
  readonly notes: readonly string[];
}

export function readCare(records: string, of: CaredUnit): CareRead {
  const { entries, notes } = chainEntries(records);
  const care: CareRecord[] = [];
  const unread: string[] = [];
  for (const entry of [...demoEntries(), ...entries.filter(({ kind }) => kind === 'care')]) {
    const parsed = parseCareBody(entry.body, `entry ${entry.seq} of ${records}`);
    if (parsed.ok) {
      const record = { seq: entry.seq, loggedOn: dayOfTime(entry.at), body: parsed.value };
      if (isOfUnit(record.body.unit, record.body.simulated, of)) care.push(record);
    } else unread.push(...parsed.problems.map(problemLine));
  }
  const repairs = entries.flatMap((entry) => (entry.kind === 'repair' ? repairUse(entry, of) : []));
  const { unit, today } = of;
  const facts = { today, figures: figuresOf(unit), demo: isDemo(unit), care, repairs };
  return { facts, notes: [...notes, ...unread] };
}

/** Times are UTC throughout, and so are days. */
export const dayOfTime = (iso: string): string => iso.slice(0, 10);

const isDemo = ({ source }: UnitSettings): boolean => /^demo\b/i.test(source);

const isOfUnit = (name: unknown, simulated: unknown, of: CaredUnit): boolean =>
  name === of.unit.name && simulated === of.simulated;

export const figuresOf = ({ channels }: UnitSettings): UnitFigures => ({
  pressure: { zeroPa: channels.pressure.zeroPa, fullPa: channels.pressure.fullPa },
  irradiance: { fullWPerM2: channels.irradiance.fullWPerM2 },
  temperature: {
    aAdded: channels.glassThermistor.a - channels.thermistor.a,
    bAdded: channels.glassThermistor.b - channels.thermistor.b,
  },
});

type Read = Pick<ChainEntry, 'seq' | 'at' | 'kind' | 'body'>;

function chainEntries(records: string): { entries: readonly Read[]; notes: readonly string[] } {
  if (!existsSync(chainPath(records))) return { entries: [], notes: [] };
  const entries: Read[] = [];
  const notes: string[] = [];
  let number = 0;
  for (const { bytes, whole } of chainLines(records)) {
    number += 1;
    const entry = whole ? parseEntry(bytes.toString('utf8')) : null;
    if (entry !== null) entries.push(entry);
    else {
      const what = whole ? 'is no entry' : 'was cut off';
      notes.push(`${chainPath(records)}: line ${number} ${what}; run: meniscus records verify`);
    }
  }
  return { entries, notes };
}

/** Entries that the demo unit ships with; numbered below the record's own entries. */
const demoEntries = (): readonly Read[] =>
  demoCare.entries.map((body, i) => ({
    seq: i - demoCare.entries.length,
    at: `${body.on}T12:00:00.000Z`,
    kind: 'care',
    body,
  }));

const lampUse = z.looseObject({
  lampOnS: z.number().min(0),
  cures: z.number().min(0),
  films: z.number().min(0),
  fullDriveWPerM2: z.number().nullable(),
});

/** A repair without recorded usage counts as one cure under one film. */
const UNKNOWN_USE = { lampOnS: 0, cures: 1, films: 1, fullDriveWPerM2: null };

function repairUse({ seq, at, body }: Read, of: CaredUnit): readonly RepairUse[] {
  const { simulated, startedAt, lamp } = (body ?? {}) as Readonly<Record<string, unknown>>;
  if (!isOfUnit(textAt(body, 'unit', 'name'), simulated, of)) return [];
  const used = lampUse.safeParse(lamp);
  const { fullDriveWPerM2, ...rest } = used.success ? used.data : UNKNOWN_USE;
  const { lampOnS, cures, films } = rest;
  const on = dayOfTime(typeof startedAt === 'string' ? startedAt : at);
  const airPa = completedAirPa(body);
  const use = { seq, on, lampOnS, cures, films, irradianceWPerM2: fullDriveWPerM2 };
  return [airPa === null ? use : { ...use, airPa }];
}

/** A job that was stopped may have been stopped because its air was not believed. */
const completedAirPa = (body: unknown): number | null =>
  textAt(body, 'result', 'endReason') === 'completed' ? numberAt(body, 'airPa') : null;
