/**
 * Decides whether a repair may start with the unit's care in its present state. Due items warn and
 * blocked items refuse. A block may be overridden for one repair by naming the item, a reason and a
 * person; an expired calibration and a lamp below its limit cannot. Overrides are recorded: the
 * reason with the repair, the name with its personal data.
 */
import { CARE_ITEMS, type CareItem, type DueItem } from '../../care/due-item.ts';

export interface CareOverride {
  readonly item: CareItem;
  readonly reason: string;
}

/** With the item's state, including when it was last done. */
export interface UsedCareOverride extends CareOverride {
  readonly against: readonly string[];
}

export interface GateAsked {
  readonly overrides: readonly CareOverride[];
  /** The person who overrides. */
  readonly by: string | null;
}

export type Gate =
  | {
      readonly ok: true;
      /** Messages before the repair starts, one line each. */
      readonly warnings: readonly string[];
      /** The overrides that were needed. */
      readonly overrides: readonly UsedCareOverride[];
    }
  | { readonly ok: false; readonly lines: readonly string[] };

export const UNNAMED_OVERRIDE = '--override needs --by NAME: the person responsible.';

export function careGate(items: readonly DueItem[], { overrides, by }: GateAsked): Gate {
  if (overrides.length > 0 && (by === null || by.trim() === '')) {
    return { ok: false, lines: [UNNAMED_OVERRIDE] };
  }
  const blocked = items.filter(({ state }) => state === 'blocked');
  const reasonFor = (item: CareItem): CareOverride | undefined =>
    CARE_ITEMS[item].mayOverride ? overrides.find((one) => one.item === item) : undefined;
  const refused = blocked.filter(({ item }) => reasonFor(item) === undefined);
  if (refused.length > 0) return { ok: false, lines: refused.map(refusal) };
  const used = blocked.flatMap(({ item, words }): UsedCareOverride[] => {
    const given = reasonFor(item);
    if (given === undefined) return [];
    return [{ ...given, against: [`${CARE_ITEMS[item].label}: ${words}`] }];
  });
  const unused = overrides.filter(({ item }) => !used.some((one) => one.item === item));
  return {
    ok: true,
    overrides: used,
    warnings: [
      ...items.filter(({ state }) => state === 'due-soon' || state === 'overdue-warn').map(warning),
      ...used.map(
        ({ item, reason }) =>
          `care: ${CARE_ITEMS[item].label} is overridden for this repair: ${reason}`,
      ),
      ...unused.map(
        ({ item }) => `care: ${CARE_ITEMS[item].label} needs no override; none is recorded`,
      ),
    ],
  };
}

const warning = ({ item, words, whatToDo }: DueItem): string =>
  `care: ${CARE_ITEMS[item].label}: ${words}. ${whatToDo}`;

function refusal({ item, words, whatToDo }: DueItem): string {
  const { label, mayOverride } = CARE_ITEMS[item];
  const how = mayOverride
    ? `; for this repair only: --override ${item}=REASON --by NAME`
    : '; this cannot be overridden';
  return `care: ${label}: ${words}. ${whatToDo}${how}`;
}
