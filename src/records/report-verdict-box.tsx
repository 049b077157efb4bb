/**
 * The top of the page: whether a run was simulated, the verdict with what it rests on, and the job
 * as the person stated it. The verdict is about the process; the outcome is the person's finding.
 */

import type { ReportData } from './report-data.ts';
import { inputRowsOf } from './report-inputs.ts';
import { lastMeasured } from './report-timeline.ts';
import { coverageWords } from './report-uncertainty.tsx';
import {
  clockWords,
  doseWords,
  END_WORDS,
  gaugeWords,
  kPaAbs,
  leakWords,
  OUTCOME_WORDS,
} from './report-words.ts';

interface Props {
  readonly data: ReportData;
}

const MARKS = { good: '✓', caution: '!', bad: '✕' } as const;

export function SimulatedBanner({ data: { simulated, board } }: Props) {
  if (!simulated) return null;
  return (
    <p class="banner">
      SIMULATED RUN, DEMO DATA. No glass was repaired: this record was made on a {board.kind}, and
      its job, resin and readings are invented.
    </p>
  );
}

export function VerdictBox({ data }: Props) {
  const { verdict, outcome, end, interrupted, alarms, holds, journal } = data;
  return (
    <>
      <section class={`verdict ${verdict.grade}`} aria-label="Verdict">
        <div class="mark" aria-hidden="true">
          {MARKS[verdict.grade]}
        </div>
        <div>
          <h2>{capital(verdict.process)}</h2>
          <p>
            {outcome === null
              ? 'The job ended before the person judged the break.'
              : OUTCOME_WORDS[outcome]}{' '}
            {data.dose.verdict === 'not cured' && 'Nothing was cured. '}
            {data.dose.verdict === 'not met' && 'The dose was not met: resin may be soft. '}
            {data.dose.verdict === 'not shown' &&
              'The dose is too near its target to be sure of it: resin may be soft. '}
          </p>
          <p>
            Job {END_WORDS[end.reason]}
            {interrupted && end.reason !== 'interrupted' && ', record interrupted'}: {end.why}
          </p>
          <p>{capital(`${counted(alarms.length, 'alarm')}, ${counted(holds.length, 'hold')}.`)}</p>
          <p class="note">
            This tells how the process went, not how strong the glass is. A mark may remain visible.
          </p>
          {journal.remarks.map((remark) => (
            <p key={remark}>About the record: {remark}</p>
          ))}
        </div>
      </section>
      <Tiles data={data} />
    </>
  );
}

function Tiles({ data }: Props) {
  const { dose, atmospherePa, measured } = data;
  const leak = lastMeasured(measured, 'leakRatePaM3PerS');
  return (
    <dl class="tiles">
      <div>
        <dt>Dose</dt>
        <dd>
          {doseWords(dose.doseJPerM2)}, {dose.verdict}
          {dose.targetJPerM2 !== null && (
            <small>
              target {doseWords(dose.targetJPerM2)}
              {dose.targetSetBy !== null && `, set by the ${dose.targetSetBy}`}
            </small>
          )}
          {dose.uncertainty === null ? (
            dose.doseJPerM2 > 0 && <small>no uncertainty stated</small>
          ) : (
            <small>
              at least {doseWords(dose.uncertainty.shownJPerM2)} ({coverageWords(dose.uncertainty)})
            </small>
          )}
        </dd>
      </div>
      <PressureTile
        label="Vacuum, last cycle"
        pa={lastMeasured(measured, 'vacuumReachedPa')}
        zeroPa={atmospherePa}
      />
      <PressureTile
        label="Pressure, last cycle"
        pa={lastMeasured(measured, 'pressureReachedPa')}
        zeroPa={atmospherePa}
      />
      <div>
        <dt>Seal leak</dt>
        <dd>{leak === null ? 'not measured' : leakWords(leak)}</dd>
      </div>
      <div>
        <dt>Time</dt>
        <dd>
          {clockWords(data.lastsS)} min
          <small>start to end</small>
        </dd>
      </div>
    </dl>
  );
}

interface PressureTileProps {
  readonly label: string;
  readonly pa: number | null;
  readonly zeroPa: number | null;
}

function PressureTile({ label, pa, zeroPa }: PressureTileProps) {
  return (
    <div>
      <dt>{label}</dt>
      <dd>
        {pa === null ? 'no dwell finished' : kPaAbs(pa)}
        {pa !== null && zeroPa !== null && <small>{gaugeWords(pa, zeroPa)}</small>}
      </dd>
    </div>
  );
}

/** The job sheet, every field in its own order. */
export function JobSection({ data }: Props) {
  const rows = inputRowsOf(data.inputs.job);
  return (
    <>
      <h2>Job and damage</h2>
      {rows.length === 0 && <p>No job sheet was given.</p>}
      <div class="scroll">
        <table class="fields">
          <caption>As the person stated it before work began.</caption>
          <tbody>
            {rows.map(({ path, label, value, unit }) => (
              <tr key={path}>
                <th scope="row">{capital(label)}</th>
                <td class="pre">
                  {value} {unit}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

const counted = (n: number, what: string): string =>
  `${n === 0 ? 'no' : n} ${what}${n === 1 ? '' : 's'}`;
