/** The crack on the simulated board. Its record is kept as the journal would hold it. */
import type { Fault } from '../../sim/faults/faults.ts';
import jobFile from '../../src/app/defaults/crack-job.json' with { type: 'json' };
import type { JournalContents } from '../../src/journal/read-journal.ts';
import type { JournalTick } from '../../src/journal/tick-line.ts';
import { runRepair } from '../bench.ts';
import { DONE, headerOf } from '../report/journal-data.ts';
import { CRACK, CRACK_PROFILE_FILE } from './crack-config.ts';

export function runCrack(faults: readonly Fault[] = []) {
  const ticks: JournalTick[] = [];
  const run = runRepair({
    config: CRACK,
    scenario: { faults },
    watch: ({ frame, requests, state }) => {
      ticks.push({ frame, requests, actuators: state.commanded });
      return false;
    },
  });
  const { unit } = headerOf().inputs;
  const contents: JournalContents = {
    header: headerOf({ unit, profile: CRACK_PROFILE_FILE, job: jobFile }),
    ticks,
    events: run.events,
    snapshots: run.snapshots,
    end: { ...DONE, outcome: run.outcome === 'clear' ? 'clear' : 'mark-remains' },
    footer: { ...DONE, frames: ticks.length, events: run.events.length, sha256: '' },
    intact: true,
    torn: false,
    sha256: '',
    remarks: [],
  };
  return { run, contents };
}
