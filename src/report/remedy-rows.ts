/** Remedies that were offered, and fresh resin that went in, in order of time. */
import type { Event, RechargeWhy, RemedyId } from '../core/events.ts';

export type RemedyRow = { readonly atS: number; readonly cycle: number } & (
  | { readonly what: 'remedy'; readonly remedy: RemedyId; readonly taken: boolean }
  | { readonly what: 'recharge'; readonly why: RechargeWhy }
);

export const remedyRowsOf = (events: readonly Event[]): readonly RemedyRow[] =>
  events.flatMap((event): RemedyRow[] => {
    const { timeS: atS } = event;
    switch (event.kind) {
      case 'remedy':
        return [
          { atS, cycle: event.cycle, what: 'remedy', remedy: event.remedy, taken: event.taken },
        ];
      case 'recharge':
        return [{ atS, cycle: event.cycle, what: 'recharge', why: event.why }];
      default:
        return [];
    }
  });
