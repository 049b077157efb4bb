/**
 * Every reason why a claim is not shown or not met, with its words. A customer reads the headline in
 * a sentence, after "but" or "and": plain words, and what was set aside by name. The grounds decide
 * whether a reason holds and give its lines.
 */

interface ObjectionWords {
  /** The best state that it leaves to its claim. */
  readonly leaves: 'not shown' | 'not met';
  readonly headline: string;
}

const unshown = (headline: string): ObjectionWords => ({ leaves: 'not shown', headline });
const unmet = (headline: string): ObjectionWords => ({ leaves: 'not met', headline });

export const OBJECTIONS = {
  'record-changed': unmet('the record was changed'),
  'record-cut': unshown('the record breaks off'),

  'stopped-by-person': unmet('a person stopped it'),
  'ended-early': unmet('it ended early'),
  interrupted: unmet('it was interrupted'),
  'broken-off': unshown('the work was broken off and taken up again later'),

  'mark-remains': unmet('a mark remains in the break'),
  'look-under-pressure': unshown('the break was not seen with the pressure off'),
  'fill-unseen': unshown('nobody is on record as having seen the break filled'),

  'dose-short': unmet('the light dose was not reached'),
  'not-cured': unmet('nothing was cured'),
  'dose-close': unshown('the light dose is too close to its target to be sure'),
  'dose-cut': unshown('the light dose is not on record'),
  'clock-or-light-in-doubt': unshown('the clock or the light sensor cannot be relied on'),
  'light-unconfirmed': unshown('the lamp is not known to give so much light'),
  'resin-other-light': unshown('the lamp does not give the light that sets the resin'),
  'light-beside-glass': unshown('the glass did not warm as it does under the lamp'),
  'lamp-not-moved': unshown('nothing shows that the lamp was moved on to its next field'),
  'dose-unsupported': unshown('the light dose rests on too little that was seen'),

  'pressure-outside': unmet('the pressure left its limits'),
  'zero-not-seen-again': unshown('the pressure was not seen back at zero after its last load'),
  'pressure-in-doubt': unshown('the pressure sensor cannot be relied on'),
  'pressure-unsupported': unshown('the pressure rests on too little that was seen'),

  'glass-outside': unmet('the glass was too cold or too hot'),
  'temperature-in-doubt': unshown('a temperature sensor cannot be relied on'),
  'temperature-unsupported': unshown('the temperature rests on too little that was seen'),

  leaks: unmet('the seal leaked'),
  'leaked-in-dwell': unshown('the seal leaked while the pump held vacuum or pressure'),
  outgassed: unshown('air or vapour still came out when the job went on'),
  'seal-unsupported': unshown('the seal rests on too little that was seen'),

  'held-too-short': unmet('vacuum, pressure or light were not held for their time'),
  'held-unsupported': unshown('the times rest on too little that was seen'),

  'clock-in-doubt': unshown('the clock cannot be relied on'),
  'clock-off': unmet('the clock ran wrong'),
  'clock-unsupported': unshown('nothing shows that the clock ran right'),

  'lamp-with-shield-open': unmet('the lamp burned with the shield open'),
  'shield-in-doubt': unshown('the light failed with the shield read as closed'),
  'shield-never-open': unshown('the shield switch was never seen to move'),
  'switches-unproved': unshown('nothing shows that the safety switches work'),

  'resin-out-of-date': unmet('the resin was past its date'),
  'pit-resin-out-of-date': unmet('the pit resin was past its date'),
  'glass-outside-resin': unmet('the glass was too cold or too hot for the resin'),
  'resin-undated': unshown('the date of the resin is not on record'),
  'pit-resin-undated': unshown('the date of the pit resin is not on record'),
  'resin-stood': unshown('resin stood in the break, not fully cured, between two attempts'),
  'resin-light-unstated': unshown('it is not on record which light sets the resin'),
  'other-resin': unshown('another resin went in whose file is not on record'),
  'pit-resin-unnamed': unshown('the pit resin is not named'),

  'calibration-overdue': unmet('a calibration was out of date'),
  'calibration-missing': unshown('a sensor was not calibrated'),
  'calibrations-unrecorded': unshown('the calibrations are not on record'),

  'care-overdue': unmet('care of the unit was overdue'),
  'care-never-done': unshown('care of the unit is not on record'),

  'rules-forbid': unmet('the rules chosen do not allow it'),
  'rules-left-open': unshown('the rules chosen left it to a person'),
  'damage-unsuited': unmet('the kind of damage is unsuited to a repair'),
  'not-assessed': unshown('the damage was not assessed against any rules'),

  'assessment-set-aside': unmet('the assessment of the damage was set aside'),
  'resin-set-aside': unmet('a check of the resin was set aside'),
  'check-set-aside': unmet('a check of the unit was set aside'),
  'bubbles-stayed': unmet('bubbles still rose when the resin was pressed in'),
  'overrides-unrecorded': unshown('it is not on record whether a check was set aside'),

  'stated-dry-found-wet': unmet('the break was stated to be dry and was found wet'),
  'leg-grew': unmet('a leg grew after the break was assessed'),
  'resin-inside': unmet('resin came through to the inner side'),
  'not-as-stated': unmet('glass or air were not as stated'),
  'nothing-to-compare': unshown('nothing stated could be compared with what was found'),
} as const satisfies Readonly<Record<string, ObjectionWords>>;
export type ObjectionId = keyof typeof OBJECTIONS;
export const OBJECTION_IDS = Object.keys(OBJECTIONS) as readonly ObjectionId[];
