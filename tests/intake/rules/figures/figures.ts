/** The figures of one rule set, entered a second time from the texts. */
export interface SetFigures {
  /** Zones and rules by id; a rule that has a zone's id is `ID/rule`. "<" for at most, ">" for at least. */
  readonly figures: Readonly<Record<string, string>>;
  /** Which vehicles, where it is not all; ">" for over and "<" for up to, in kg. */
  readonly covers?: string;
  /** What has superseded it, and since when it is withdrawn. */
  readonly outOfForce?: readonly [string | null, string | null];
}

export const ALL = 'type not bullseye half-moon star-break combination-break surface-pit crack';
export const MARKS = 'type not bullseye half-moon star-break combination-break surface-pit';
