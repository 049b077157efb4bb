/** The types in which procedures differ, handed to the one controller as one parameter. */
import type { UnitSnapshot } from '../events.ts';
import type { Catalogue } from '../panel/catalogue.ts';
import type { AlarmReason } from '../panel/page-words.ts';
import type { UnitSettings } from '../unit-settings.ts';

export interface ProcedureTypes {
  /** What stays the same for the whole run. */
  readonly config: { readonly unit: UnitSettings; readonly catalogue: Catalogue };
  /** Where the walk through the phases stands. */
  readonly walk: { readonly elapsedS: number; readonly atmospherePa: number | null };
  /** What is watched also while the procedure is held: doses and heat, for example. */
  readonly scene: unknown;
  /** What a row's demand on the air is reckoned from. */
  readonly figures: unknown;
  /** Reasons that only this procedure has, by key. */
  readonly say: object;
  readonly snapshot: UnitSnapshot;
}

/** Why something is held or over: in the words of the record, and as the display will tell it. */
export interface Reason<Say> {
  readonly record: string;
  readonly shown: Say | AlarmReason;
  /** Why it is held, while the screen asks whether to end it. */
  readonly heldFor?: Reason<Say>;
}

export const asksEnd = (why: Pick<Reason<object>, 'heldFor'> | null): boolean =>
  why?.heldFor !== undefined;
