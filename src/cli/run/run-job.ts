/** Runs one repair to its end, with its journal and its panel. */

import type { LoadedSettings } from '../../app/prepare/load-settings.ts';
import { REPAIR } from '../../procedure/repair/repair.ts';
import type { Repair } from '../../procedure/repair/repair-state.ts';
import { doseLine, eventLine } from '../terminal/event-lines.ts';
import { drawPanel, type PanelPicture } from '../terminal/panel-drawing.ts';
import type { BegunRecord } from './begin-record.ts';
import { type ProcedureEnd, runProcedure } from './run-procedure.ts';
import type { Session } from './session.ts';

export interface JobRun {
  readonly settings: LoadedSettings;
  readonly session: Session;
  readonly record: BegunRecord;
  readonly surroundings: Omit<PanelPicture, 'signals' | 'snapshot' | 'seen'>;
  readonly out: NodeJS.WriteStream;
  readonly err: NodeJS.WriteStream;
}

export type JobEnd = Omit<ProcedureEnd<Repair>, 'last'>;

export function runJob(run: JobRun): Promise<JobEnd> {
  const { settings, session, surroundings } = run;
  const { papers: words } = settings;
  return runProcedure({
    ...run,
    procedure: REPAIR,
    config: settings.config,
    keeps: (snapshot) => snapshot,
    numbers: null,
    showing: {
      lineOf: (event) => eventLine(event, words),
      doseLineOf: (dose) => doseLine(dose, words),
      pictureOf: ({ outputs: signals, snapshot }, colour) =>
        drawPanel(
          { ...surroundings, signals, snapshot, seen: session.look(words.terminal.panel) },
          words,
          colour,
        ),
    },
  });
}
