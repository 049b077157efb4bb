/**
 * Keeps the result of a guided procedure as a care entry: the body with its day and its last valid
 * day, and separately, as personal data, the person's name.
 */

import { saltFor } from '../../app/prepare/personal.ts';
import { type CareBody, parseCareBody } from '../../care/care-entry.ts';
import type { CareSettings } from '../../care/care-settings.ts';
import { dayAfter } from '../../core/calendar.ts';
import { type Checked, problemLine } from '../../core/settings.ts';
import type { GuidedResult } from '../../procedure/guided/guided-result.ts';
import type { GuidedConfig } from '../../procedure/guided/guided-state.ts';
import type { ChainEntry, JsonValue } from '../../store/chain/chain-entry.ts';
import { openToWrite } from '../terminal/this-unit.ts';

export interface DoneWhen {
  /** ISO 8601. */
  readonly at: string;
  /** Null on a real board. */
  readonly seed: number | null;
  /** Relative to the folder of records. */
  readonly journal: { readonly file: string; readonly sha256: string };
}

export function careBodyOf(
  result: GuidedResult,
  { unit, reference, settings }: GuidedConfig,
  { calibration }: Pick<CareSettings, 'calibration'>,
  { at, seed, journal }: DoneWhen,
): Checked<CareBody> {
  const on = at.slice(0, 10);
  const common = { unit: unit.name, simulated: seed !== null, on, journal };
  if (result.channel === 'health') {
    const { channel: _, stoppedEarly: __, refusals: ___, ...measured } = result;
    const { pumpDownToPa } = settings.health;
    return parseCareBody({ what: 'health', ...common, pumpDownToPa, ...measured }, 'result');
  }
  const { corrections: _, residuals: __, ...stored } = result;
  const validUntil = dayAfter(on, calibration[result.channel].everyDays);
  return parseCareBody(
    { what: 'calibration', ...common, ...stored, reference, validUntil },
    'result',
  );
}

export type KeptResult =
  | { readonly ok: true; readonly entry: ChainEntry; readonly notes: readonly string[] }
  | { readonly ok: false; readonly lines: readonly string[] };

export function keepCareResult(
  records: string,
  body: CareBody,
  { at, seed }: DoneWhen,
  person: string,
): KeptResult {
  try {
    const opened = openToWrite(records, { newSalt: () => saltFor(seed) });
    if (!opened.ok) return { ok: false, lines: opened.problems.map(problemLine) };
    const { value: store } = opened;
    try {
      const draft = {
        at,
        kind: 'care',
        id: idOf(body, at),
        body: JSON.parse(JSON.stringify(body)) as JsonValue,
        personal: { person },
      } as const;
      return { ok: true, entry: store.append(draft), notes: store.notes() };
    } finally {
      store.close();
    }
  } catch (error) {
    return { ok: false, lines: [`records: ${String(error)}`] };
  }
}

/** Two results in the same second would share a name only where nothing else differs. */
function idOf(body: CareBody, at: string): string {
  const what = body.what === 'calibration' ? `calibration-${body.channel}` : body.what;
  return `${what}-${at.slice(0, 19).replaceAll(':', '')}`;
}
