/**
 * What no record of this unit can show, however good: the unit has no sense for it. Report and
 * certificate print every row. A customer reads the short words in a list after "cannot show".
 */

interface CannotShowRow {
  readonly id: string;
  readonly short: string;
  readonly words: string;
}

export const CANNOT_SHOW = [
  {
    id: 'lamp-over-break',
    short: 'that the lamp stood on the break and stayed there',
    words:
      'That the lamp stood on the break and stayed there: a person says so. The light sensor stands with the lamp. Glass that does not warm under it tells of a lamp beside the pane or far off, not of one a little beside the break.',
  },
  {
    id: 'steps-done',
    short: 'that a step answered YES was done',
    words:
      'That a step answered YES was done: cleaning, drying, film, resin, shield set down over the break. Each is the person’s word.',
  },
  {
    id: 'resin-identity',
    short: 'which resin was in the bottle',
    words:
      'Which resin was used: the bottle is named by a person, and its dates and figures are those of its file.',
  },
  {
    id: 'glass-before-light',
    short: 'how warm the glass was before the lamp burned',
    words:
      'How warm the glass was before the lamp burned: one sensor says so alone. Only the lamp’s own warmth shows that it sits on the glass and moves.',
  },
  {
    id: 'look-of-fill',
    short: 'what the break looks like',
    words:
      'What the break looks like: the unit does not see it; a person says whether it is clear.',
  },
  {
    id: 'pressure-at-break',
    short: 'that the hose was open to the break',
    words:
      'That vacuum and pressure came to the break: the sensor sits at the pump’s end of the hose. A hose that resin has blocked lets it read what the break does not have, and only the look of the break tells.',
  },
  {
    id: 'cutting-contacts',
    short: 'that the contacts that cut off pump and lamp still open',
    words:
      'That the contacts of stop and shield that cut the supply, the thermal cut-out and the relief valve still open: nobody reads them, and only the bring-up checklist proves them.',
  },
  {
    id: 'strength',
    short: 'how strong the glass is',
    words: 'How strong the glass is: nothing here loads it.',
  },
] as const satisfies readonly CannotShowRow[];
export type CannotShowId = (typeof CANNOT_SHOW)[number]['id'];
