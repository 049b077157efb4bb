/** One thing wrong beside the good job’s process, and what its claim then says: typed from the requirement. */
import type { Event, HoldReason } from '../../../src/core/events.ts';
import type { ClaimId } from '../../../src/report/claims/claim-table.ts';
import { ABOUT, BOTTLE } from '../../papers-in-order.ts';
import { at, GOOD_JOB, type Telling, UNIT } from '../job-story.ts';

const RULE = {
  words: 'no repair before the driver',
  ruleSet: 'Demo rules',
  edition: 'edition of 1999',
  measured: 'star-break',
};
const { sheet, assessment: ALLOWED } = ABOUT.intake;

const assessed = (assessment: object) => ({
  ...ABOUT,
  intake: { sheet, assessment: { ...ALLOWED, ...assessment } },
});
export const setAside = (item: string, ...against: readonly string[]) => ({
  ...ABOUT,
  overrides: [{ item, reason: 'demo reason', against }],
});
export const found = (finding: 'moisture' | 'leak' | 'outgassing', timeS = 10): Event =>
  at(timeS, { kind: 'seal-finding', finding, why: 'Levels like water' });
export const answered = (
  phase: 'bubbles-stay' | 'scrape' | 'final-look',
  answer: 'yes' | 'no',
): Event => at(188.5, { kind: 'answer', phase, answer });
const heldBecause = (reason: HoldReason): Event =>
  at(188.5, { kind: 'hold-reason', phase: 'ask-bubbles', reason });
export interface Case {
  readonly claim: ClaimId;
  readonly state: 'not shown' | 'not met';
  readonly headline: string;
  readonly line: string;
  readonly events?: readonly Event[];
  readonly telling?: Telling;
  readonly about?: object;
}

export const BESIDE_CASES: Readonly<Record<string, Case>> = {
  'resin a day past its date': {
    claim: 'resin',
    state: 'not met',
    about: { ...ABOUT, day: '2001-01-01', resin: { ...BOTTLE, openedOn: null } },
    headline: 'the resin was past its date',
    line: 'demo resin, lot demo-lot-7: expired on 2000-12-31, used on 2001-01-01',
  },
  'resin open a day too long': {
    claim: 'resin',
    state: 'not met',
    about: { ...ABOUT, day: '2000-02-02' },
    headline: 'the resin was past its date',
    line: 'demo resin, lot demo-lot-7: opened on 2000-01-01, usable for 31 days from then, used on 2000-02-02',
  },
  'pit resin a day past its date': {
    claim: 'resin',
    state: 'not met',
    about: {
      ...ABOUT,
      pitResin: { ...BOTTLE, name: 'demo pit resin', expiresOn: '2000-01-19', openedOn: null },
    },
    headline: 'the pit resin was past its date',
    line: 'demo pit resin, lot demo-lot-7: expired on 2000-01-19, used on 2000-01-20',
  },
  'no bottle named': {
    claim: 'resin',
    state: 'not shown',
    about: { ...ABOUT, resin: null },
    headline: 'the date of the resin is not on record',
    line: 'fill: no bottle file is on record',
  },
  'a pit cured apart with a resin that nobody named': {
    claim: 'resin',
    state: 'not shown',
    telling: { profileWith: { curing: 'apart' } },
    headline: 'the pit resin is not named',
    line: 'the pit was cured apart, and no bottle is named for it but that of the fill, demo resin',
  },
  'glass colder than its resin allows': {
    claim: 'resin',
    state: 'not met',
    about: { ...ABOUT, resin: { ...BOTTLE, glass: { lowestC: 25, highestC: 40 } } },
    headline: 'the glass was too cold or too hot for the resin',
    line: 'glass 23.0 to 23.0 °C while demo resin, lot demo-lot-7, was worked; it allows 25.0 to 40.0 °C',
  },
  'a resin that other light sets': {
    claim: 'dose',
    state: 'not shown',
    about: { ...ABOUT, resin: { ...BOTTLE, light: { fromNm: 385, toNm: 420 } } },
    headline: 'the lamp does not give the light that sets the resin',
    line: 'demo resin, lot demo-lot-7: set by 385 to 420 nm; the lamp peaks at 365 nm',
  },
  'a lamp of other light than sets the resin': {
    claim: 'dose',
    state: 'not shown',
    telling: { unit: { ...UNIT, lamp: { peakNm: 386 } } },
    headline: 'the lamp does not give the light that sets the resin',
    line: 'demo resin, lot demo-lot-7: set by 345 to 385 nm; the lamp peaks at 386 nm',
  },
  'a pit resin that other light sets': {
    claim: 'dose',
    state: 'not shown',
    about: {
      ...ABOUT,
      pitResin: { ...BOTTLE, name: 'pit one', light: { fromNm: 400, toNm: 420 } },
    },
    headline: 'the lamp does not give the light that sets the resin',
    line: 'pit one, lot demo-lot-7: set by 400 to 420 nm; the lamp peaks at 365 nm',
  },
  'a bottle that does not say which light sets its resin': {
    claim: 'resin',
    state: 'not shown',
    about: { ...ABOUT, resin: { ...BOTTLE, light: null } },
    headline: 'it is not on record which light sets the resin',
    line: 'demo resin, lot demo-lot-7: its file does not say which light sets it',
  },
  'rules that do not allow it': {
    claim: 'rules',
    state: 'not met',
    about: assessed({ answer: 'not-allowed-here', reasons: [RULE] }),
    headline: 'the rules chosen do not allow it',
    line: 'no repair before the driver: star-break (Demo rules, edition of 1999)',
  },
  'rules that leave it to a person': {
    claim: 'rules',
    state: 'not shown',
    about: assessed({ answer: 'needs-a-person', reasons: [RULE] }),
    headline: 'the rules chosen left it to a person',
    line: 'no repair before the driver: star-break (Demo rules, edition of 1999)',
  },
  'damage of a kind that speaks against it': {
    claim: 'rules',
    state: 'not met',
    about: assessed({ technical: { answer: 'cannot', reasons: ['Dirt stays in the break.'] } }),
    headline: 'the kind of damage is unsuited to a repair',
    line: 'Dirt stays in the break.',
  },
  'no intake sheet': {
    claim: 'rules',
    state: 'not shown',
    about: { ...ABOUT, intake: null },
    headline: 'the damage was not assessed against any rules',
    line: 'no intake sheet was assessed with this job',
  },
  'the assessment set aside': {
    claim: 'set-aside',
    state: 'not met',
    about: setAside('assessment', 'not-allowed-here, technically can'),
    headline: 'the assessment of the damage was set aside',
    line: 'not-allowed-here, technically can',
  },
  'a check of the resin set aside': {
    claim: 'set-aside',
    state: 'not met',
    about: setAside('resin', 'demo resin: too thick'),
    headline: 'a check of the resin was set aside',
    line: 'demo resin: too thick',
  },
  'care of the unit set aside': {
    claim: 'set-aside',
    state: 'not met',
    about: setAside('cleaning', 'cleaning: done on 1999-10-01, due 1999-11-01'),
    headline: 'a check of the unit was set aside',
    line: 'cleaning: done on 1999-10-01, due 1999-11-01',
  },
  'a check set aside in a journal that does not say what stood against it': {
    claim: 'set-aside',
    state: 'not met',
    about: { ...ABOUT, overrides: [{ item: 'o-ring', reason: 'demo reason' }] },
    headline: 'a check of the unit was set aside',
    line: 'o ring: demo reason',
  },
  'a journal that does not say what was set aside': {
    claim: 'set-aside',
    state: 'not shown',
    about: { ...ABOUT, overrides: undefined },
    headline: 'it is not on record whether a check was set aside',
    line: 'which checks were set aside: this journal’s version did not record it',
  },
  'resin pressed in although bubbles still rose': {
    claim: 'set-aside',
    state: 'not met',
    events: [...GOOD_JOB, answered('bubbles-stay', 'yes')],
    headline: 'bubbles still rose when the resin was pressed in',
    line: 'at 3:09 min the longest vacuum was over, bubbles still rose, and a person went on',
  },
  'a leg that grew, as the person said who held it': {
    claim: 'as-stated',
    state: 'not met',
    events: [...GOOD_JOB, heldBecause('leg-grew')],
    headline: 'a leg grew after the break was assessed',
    line: 'at 3:09 min, in step 5.3, a person held the job because a leg grew',
  },
  'a thinner resin that went in as a remedy': {
    claim: 'resin',
    state: 'not shown',
    events: [...GOOD_JOB, at(188.5, { kind: 'recharge', cycle: 2, why: 'thinner-resin' })],
    headline: 'another resin went in whose file is not on record',
    line: 'at 3:09 min a thinner resin was put in as a remedy; neither its date nor the light that sets it is on record',
  },
  'resin on the inner side': {
    claim: 'as-stated',
    state: 'not met',
    events: [...GOOD_JOB, heldBecause('resin-inside')],
    headline: 'resin came through to the inner side',
    line: 'at 3:09 min, in step 5.3, a person held the job because resin shows on the inner side',
  },
  'a break that was stated dry and found wet': {
    claim: 'as-stated',
    state: 'not met',
    events: [found('moisture'), ...GOOD_JOB],
    headline: 'the break was stated to be dry and was found wet',
    line: 'intake sheet: dry; seal test at 0:10 min found moisture: Levels like water',
  },
  'resin that was found soft at the dose that is said to set it': {
    claim: 'as-stated',
    state: 'not shown',
    events: [...GOOD_JOB, answered('scrape', 'no')],
    headline: 'the resin was soft when its dose was reached',
    line: 'at 3:09 min the scraped resin was soft although its dose was reached',
  },
  'glass that was stated 6 K warmer than it was': {
    claim: 'as-stated',
    state: 'not met',
    telling: { job: { glassC: 29 } },
    headline: 'glass or air were not as stated',
    line: 'glass: stated 29.0 °C; measured 23.0 °C',
  },
  'air that was stated 3 kPa lower than it was': {
    claim: 'as-stated',
    state: 'not met',
    about: {
      ...ABOUT,
      intake: { assessment: ALLOWED, sheet: { ...sheet, conditions: { airKPa: 97.6 } } },
    },
    headline: 'glass or air were not as stated',
    line: 'air: stated 97.6 kPa abs; measured 100.6 kPa abs',
  },
  'nothing stated': {
    claim: 'as-stated',
    state: 'not shown',
    telling: { job: {} },
    about: { ...ABOUT, intake: { assessment: ALLOWED, sheet: {} } },
    headline: 'nothing stated could be compared with what was found',
    line: 'glass: nothing was stated',
  },
};
