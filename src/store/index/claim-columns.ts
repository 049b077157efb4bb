/**
 * What the index keeps of a repair's claims: how many are shown, not shown and not met, and which
 * are not shown or not met. A claim on several portions counts once, by its worst portion. Entries
 * from before there were claims, and jobs that could not be judged, state none, which is not zero.
 */
import { listAt, textAt } from '../../core/fields.ts';
import { CLAIM_STATES, type ClaimState, worstOf } from '../../report/claims/claim.ts';

export interface ClaimColumns {
  readonly claimsShown: number | null;
  readonly claimsNotShown: number | null;
  readonly claimsNotMet: number | null;
  /** Ids, separated by "; "; empty where there are none. */
  readonly notShown: string | null;
  readonly notMet: string | null;
}

/** A claim that is not shown or not met, as rows of `open_claims` state it. */
export interface OpenClaim {
  readonly claim: string;
  readonly state: string;
}

const NONE_STATED: ClaimColumns = {
  claimsShown: null,
  claimsNotShown: null,
  claimsNotMet: null,
  notShown: null,
  notMet: null,
};

const SEPARATOR = '; ';

/** From the body of an entry, of whatever version wrote it. */
export function claimColumnsOf(body: unknown): ClaimColumns {
  const states = new Map<string, ClaimState>();
  for (const one of listAt(body, 'result', 'claims')) {
    const id = textAt(one, 'id');
    if (id === null) continue;
    states.set(id, worstOf([states.get(id) ?? 'shown', stateIn(one)]));
  }
  if (states.size === 0) return NONE_STATED;
  const of = (state: ClaimState): readonly string[] =>
    [...states].filter(([, is]) => is === state).map(([id]) => id);
  return {
    claimsShown: of('shown').length,
    claimsNotShown: of('not shown').length,
    claimsNotMet: of('not met').length,
    notShown: of('not shown').join(SEPARATOR),
    notMet: of('not met').join(SEPARATOR),
  };
}

/** A state that this program does not know shows nothing. */
const stateIn = (claim: unknown): ClaimState =>
  CLAIM_STATES.find((state) => state === textAt(claim, 'state')) ?? 'not shown';

export const openClaimsOf = ({ notShown, notMet }: ClaimColumns): readonly OpenClaim[] => [
  ...idsIn(notShown).map((claim) => ({ claim, state: 'not shown' })),
  ...idsIn(notMet).map((claim) => ({ claim, state: 'not met' })),
];

const idsIn = (ids: string | null): readonly string[] =>
  (ids ?? '').split(SEPARATOR).filter((id) => id !== '');
