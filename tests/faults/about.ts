/**
 * What goes with the jobs of the campaign beside their settings, all in order: a claim that is left
 * open was left open for the fault.
 */
import { ABOUT, BOTTLE } from '../papers-in-order.ts';

export const DAY = ABOUT.day;

/**
 * `proved`: the proof of stop and over-pressure switch is in force. It cannot be where a contact of
 * either was shorted before it.
 */
export const aboutJob = (proved: boolean): unknown => ({
  ...ABOUT,
  pitResin: BOTTLE,
  care: ABOUT.care.filter(({ item }) => proved || item !== 'interlocks'),
});
