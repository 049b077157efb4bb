/** The good job's story with one thing changed in what it measured. */
import type { Event } from '../../../src/core/events.ts';
import { GOOD_JOB } from '../job-story.ts';

export const measuredAs = (name: string, value: number): readonly Event[] =>
  GOOD_JOB.map((event) =>
    event.kind === 'measured' && event.name === name ? { ...event, value } : event,
  );
export const without = (drop: (event: Event) => boolean): readonly Event[] =>
  GOOD_JOB.filter((event) => !drop(event));
export const isMeasured = (event: Event, name: string): boolean =>
  event.kind === 'measured' && event.name === name;
