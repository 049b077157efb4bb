/**
 * What may help when a break is not clear after the planned cycles: the table of remedies, which
 * one is offered next for this kind of break, and what it changes in the job. The words and
 * cautions are the catalogues'. Nothing here weakens a limit: a longer vacuum stays within the
 * profile's longest, pressure is only lowered, and the glass is watched while it is warmed.
 */
import { z } from 'zod';
import { REMEDY_IDS, type RemedyId } from '../../core/events.ts';
import { choice, quantity, schemaName, text } from '../../core/settings.ts';
import { DAMAGE_TYPES } from '../../intake/sheet/job-sheet.ts';
import type { ProcedureState } from '../phase.ts';
import type { Profile } from '../profile.ts';
import file from './remedies.json' with { type: 'json' };

const remedySchema = z.strictObject({
  id: choice(REMEDY_IDS),
  /** Kinds of break. */
  suits: z.array(choice(DAMAGE_TYPES)).min(1),
  /** Offered once this one was tried or just declined, if the profile allows it; null for any time. */
  after: choice(REMEDY_IDS).nullable(),
  changes: z.strictObject({
    /** Of the next vacuum dwell, within the profile's longest. */
    vacuumDwellTimes: quantity(1, 5, 'times').optional(),
    /** Of the pressure, for the rest of the job. */
    pressureTimes: quantity(0.2, 1, 'times').optional(),
    /** Fresh resin goes in. */
    recharge: z.literal(true).optional(),
    /** The foot is set on the glass again: the seal is tested, and fresh resin goes in. */
    reseat: z.literal(true).optional(),
  }),
});
export type Remedy = z.infer<typeof remedySchema>;

export const remediesSchema = z
  .strictObject({
    schema: schemaName('meniscus/remedies@1'),
    source: text(200),
    remedies: z.array(remedySchema),
  })
  .check(({ value, issues }) => {
    for (const id of REMEDY_IDS) {
      const rows = value.remedies.filter((row) => row.id === id).length;
      if (rows === 1) continue;
      issues.push({
        code: 'custom',
        input: value.remedies,
        path: ['remedies'],
        message: `one row for ${id}, these are ${rows}`,
      });
    }
  });

const { remedies: TABLE } = remediesSchema.parse(file);

/** The schema asks for one row of each. */
const ROW_OF = Object.fromEntries(TABLE.map((row) => [row.id, row])) as Readonly<
  Record<RemedyId, Remedy>
>;

export const changesOf = (id: RemedyId): Remedy['changes'] => ROW_OF[id].changes;

type Offered = Pick<ProcedureState, 'tried' | 'passedOver'>;

/**
 * The next one in the table that suits, has not been tried, and was not just declined; warmth
 * first where the profile advises it.
 */
export function nextRemedy(
  { tried, passedOver }: Offered,
  { remedies: allowed, notClearAdvice }: Pick<Profile, 'remedies' | 'notClearAdvice'>,
  damageType: string,
): RemedyId | null {
  const left = TABLE.filter(
    ({ id, suits, after }) =>
      allowed.includes(id) &&
      suits.some((kind) => kind === damageType) &&
      !tried.includes(id) &&
      !passedOver.includes(id) &&
      (after === null || !allowed.includes(after) || [...tried, ...passedOver].includes(after)),
  );
  const first = notClearAdvice === 'warm-the-pane' ? left.find(({ id }) => id === 'warmth') : null;
  return (first ?? left[0])?.id ?? null;
}

/** How the job goes on differently. */
export function withRemedy(state: ProcedureState, id: RemedyId): Partial<ProcedureState> {
  const { vacuumDwellTimes = 1, pressureTimes = 1, reseat = false } = changesOf(id);
  return {
    tried: [...state.tried, id],
    passedOver: [],
    remedy: null,
    dwellTimes: vacuumDwellTimes,
    pressureRatio: state.pressureRatio * pressureTimes,
    ...(reseat && { reseated: true }),
  };
}
