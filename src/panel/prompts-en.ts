/**
 * What the display says in each phase, in plain English: a title, two lines, and pages for the
 * button MORE. Wording is the project's own. Automatic phases leave a line empty where `screen.ts`
 * puts live values. Lines are at most 20 characters of plain ASCII, titles at most 15, both checked
 * by tests.
 */
import type { PhaseId } from '../events.ts';

export interface Prompt {
  readonly title: string;
  /** The second line of an automatic phase is taken by live values. */
  readonly lines: readonly [string, string];
  readonly more: string;
}

export const PROMPTS_EN: Readonly<Record<PhaseId, Prompt>> = {
  'self-test': {
    title: 'Self-test',
    lines: ['Hose off, lamp dark', 'Checking sensors'],
    more: 'The unit reads the air around it as zero for this job and checks every sensor. Pump and lamp are off, the vent is open.',
  },
  'vacuum-note': {
    title: 'Vacuum here',
    lines: ['', 'YES: seen, go on'],
    more: 'The air around sets how deep the pump can draw and how much air a vacuum leaves in the break. The record states what was asked, given and why. A further cycle draws out more.',
  },
  'job-sheet': {
    title: 'Job sheet',
    lines: ['', 'Is this the job?'],
    more: 'Compare damage, size and resin with the pane. Local rules and a trained person decide whether it may be repaired. Hold if in doubt.',
  },
  protect: {
    title: 'Protect',
    lines: ['Put on gloves and', 'safety glasses'],
    more: 'Uncured resin can cause lasting skin allergy. Use fresh nitrile gloves. Slivers fly when the pit is cleared. Resin on skin: wash at once.',
  },
  inspect: {
    title: 'Look closely',
    lines: ['Look at the break', 'from both sides'],
    more: 'Feel the inside of the pane. Inner ply or interlayer touched, or dirt that stays: do not repair. Take a photo with a scale now.',
  },
  'clean-pit': {
    title: 'Clean the pit',
    lines: ['Clear loose glass,', 'wipe, no blowing'],
    more: 'Take out loose glass and dirt with a probe. Never drill or scratch into the interlayer. Wipe with a damp cloth, no air gun.',
  },
  'dry-pit': {
    title: 'Dry the break',
    lines: ['Dry it gently, let', 'it cool to the touch'],
    more: 'Water in the break turns milky. Warm a wide area gently, never one spot. Let the glass cool until it is cool to the touch.',
  },
  'set-bridge': {
    title: 'Set the bridge',
    lines: ['Feet flat on glass,', 'pit in the centre'],
    more: 'Stand the bridge so that the injector meets the pit square on. Keep its feet off legs and off the edge of the pane.',
  },
  'close-seal': {
    title: 'Close the seal',
    lines: ['Turn down until it', 'just holds, no more'],
    more: 'Use the least force that holds. Too much force bends the glass, closes the break and can make legs grow.',
  },
  'charge-injector': {
    title: 'Charge resin',
    lines: ['Put 3 to 5 drops', 'into the injector'],
    more: 'Check the name and lot of the resin. Keep it out of sunlight: daylight sets it. Wipe spills at once and bag the wipe.',
  },
  'connect-hose': {
    title: 'Connect hose',
    lines: ['Push the hose on', 'until it clicks'],
    more: 'The next steps run the pump. Keep your face away from hose and injector. NO holds at any time.',
  },
  'seal-pull': {
    title: 'Seal check',
    lines: ['', 'Short pull'],
    more: 'A short pull, then the pump stops and the unit watches whether the vacuum stays.',
  },
  'seal-watch': {
    title: 'Seal check',
    lines: ['', 'Pump off: watching'],
    more: 'Do not touch the bridge. A steady rise of pressure is a leak at ring or hose. A rise that levels off is water, or what the glass gives off.',
  },
  reseat: {
    title: 'Seal leaks',
    lines: ['Wipe ring and glass,', 'reseat. YES: test'],
    more: 'Wipe ring and glass dry. Look for grit or a leg under the ring. Reseat with the least force that holds.',
  },
  'dry-again': {
    title: 'Break is wet',
    lines: ['Off, dry it gently,', 'set up. YES: test'],
    more: 'The pressure rose and levelled off where water does. Take injector and bridge off, warm a wide area gently, let it cool, set up again. Cured now it would turn milky.',
  },
  'long-pull': {
    title: 'Longer pull',
    lines: ['', 'Glass gives off gas'],
    more: 'The pressure rose and levelled off below where water does. A longer pull draws off what clings to glass and resin, then the test is run again.',
  },
  'test-again': {
    title: 'Not clear why',
    lines: ['', 'Reseat. YES: test'],
    more: 'The rise fits more than one cause, or lies too near the limit. Wipe ring and glass, reseat, keep hands and sun off, test again. Hold if it stays so.',
  },
  evacuate: {
    title: 'Air out',
    lines: ['', 'Watch the break'],
    more: 'Vacuum draws air out of the legs. Bubbles rise in the resin.',
  },
  'vacuum-dwell': {
    title: 'Vacuum holds',
    lines: ['', 'Watch for bubbles'],
    more: 'Common practice is 30 s to 2 min, longer while bubbles still come.',
  },
  'ask-bubbles': {
    title: 'Bubbles?',
    lines: ['Do bubbles still', 'rise in the resin?'],
    more: 'YES keeps the vacuum for a while longer, up to the limit of the profile. NO lets the air in and goes on to pressure.',
  },
  release: {
    title: 'Air in',
    lines: ['', 'Vacuum is released'],
    more: 'The resin goes into the break as the air comes back.',
  },
  pressurise: {
    title: 'Pressure rises',
    lines: ['', 'Hands off'],
    more: 'Pressure drives the resin to the far ends of the legs. Keep hands and face away.',
  },
  'pressure-dwell': {
    title: 'Pressure holds',
    lines: ['', 'Look for wet rim'],
    more: 'Common practice is 2 to 4 min. A wet rim under the ring means that resin creeps out: hold and reseat.',
  },
  vent: {
    title: 'Letting down',
    lines: ['', 'Let air show again'],
    more: 'The fill is judged without pressure, because pressure hides air that is left. Such air needs a moment to show.',
  },
  'ask-clear': {
    title: 'Clear?',
    lines: ['Pressure is off. Is', 'the break all clear?'],
    more: 'Look from several sides against a dark and a light ground. Dark legs or silver edges are air. Do not cure air in.',
  },
  'offer-cycle': {
    title: 'Once more?',
    lines: ['Not clear: one more', 'cycle is advised'],
    more: '',
  },
  'accept-mark': {
    title: 'Cure anyway?',
    lines: ['A mark may remain.', 'YES cure, NO stop'],
    more: 'Cured resin cannot be filled again. Ask whoever owns the pane if it is not as agreed. NO ends the job with nothing cured.',
  },
  'fill-pit': {
    title: 'Fill the pit',
    lines: ['Injector off. Pit', 'resin: one drop'],
    more: 'Take hose, injector and bridge off. Put one drop of pit resin on the pit, without air under it.',
  },
  'cover-film': {
    title: 'Cover film',
    lines: ['Lay film on it and', 'press bubbles out'],
    more: 'Air keeps the top of the resin sticky: the film keeps air away. Keep it on until the cure is over.',
  },
  'place-lamp': {
    title: 'Place the lamp',
    lines: ['Lamp on the spot,', 'close the shield'],
    more: 'UV hurts eyes and skin and some of it is not seen. YES starts the lamp, and only with the shield closed.',
  },
  cure: {
    title: 'Curing',
    lines: ['', 'Do not lift shield'],
    more: 'The cure ends when the dose is met for certain, its doubt added, and the least time is over. Opening the shield pauses it; the dose is kept.',
  },
  scrape: {
    title: 'Scrape level',
    lines: ['Film off. Scrape the', 'pit level with blade'],
    more: 'The lamp head may be hot. Hold the blade upright and draw it away from your fingers. Sticky resin needs more light.',
  },
  polish: {
    title: 'Polish',
    lines: ['Polish the pit until', 'it reflects'],
    more: 'Keep it cool: rub lightly and not for long. Wipe clean.',
  },
  'clean-injector': {
    title: 'Clean up',
    lines: ['Clean injector, ring', 'and hose end'],
    more: 'Resin left in the injector sets. Bag the wipes, take the gloves off inside out, wash your hands.',
  },
  'final-look': {
    title: 'Final look',
    lines: ['Clear, level and', 'hard all over?'],
    more: 'Look from both sides. NO is an honest answer: the record then says that a mark remains.',
  },
  result: {
    title: 'Result',
    lines: ['', 'YES closes record'],
    more: 'Tell whoever owns the pane that a mark may remain and that the glass is improved, not made new.',
  },
};

/** What to advise when the break is not clear, by the profile's choice. */
export const NOT_CLEAR_ADVICE_EN = {
  'another-cycle':
    'Air is left in the break. Another vacuum and pressure cycle draws more of it out; more pressure would only hide it.',
  'warm-the-pane':
    'Air is left in the break. Warm the whole area gently to thin the resin, let it settle, then run another cycle.',
} as const;
