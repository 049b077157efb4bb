/**
 * The report as one self-contained page: no script, nothing loaded from anywhere, printable. It
 * decides the order in which things are told (verdict first, then what it rests on, then everything
 * else), and leaves each part to its section. All text passes through the renderer, which escapes it.
 */

import { render } from 'preact-render-to-string';
import type { Snapshot } from '../events.ts';
import { PageHead } from './page-head.tsx';
import { DoseBar, DoseChart, GlassChart } from './report-cure-charts.tsx';
import type { ReportData } from './report-data.ts';
import { AlarmsTable, AnswersTable, HoldsTable, PhasesTable } from './report-history.tsx';
import { Identity, InputsTable, Plain } from './report-identity.tsx';
import { PressureChart } from './report-pressure-chart.tsx';
import { CyclesTable, LimitsTable, MeasuredTable } from './report-results.tsx';
import { AdaptedTable, SealTable } from './report-seal.tsx';
import { REPORT_STYLE } from './report-style.ts';
import { BudgetsTable, DoseTable } from './report-uncertainty.tsx';
import { JobSection, SimulatedBanner, VerdictBox } from './report-verdict-box.tsx';

interface PageProps {
  readonly data: ReportData;
  /** The traces; in SI, as the journal keeps them. */
  readonly snapshots: readonly Snapshot[];
}

export function renderReportPage(data: ReportData, snapshots: readonly Snapshot[]): string {
  return `<!doctype html>\n${render(<Page data={data} snapshots={snapshots} />)}\n`;
}

function Page({ data, snapshots }: PageProps) {
  return (
    <html lang="en">
      <PageHead title={`Repair record, ${data.verdict.process}`} style={REPORT_STYLE} />
      <body>
        <main>
          <Results data={data} snapshots={snapshots} />
          <History data={data} />
        </main>
      </body>
    </html>
  );
}

function Results({ data, snapshots }: PageProps) {
  return (
    <>
      <SimulatedBanner data={data} />
      <header>
        <p>Meniscus, record of a repair to laminated glass</p>
        <h1>Repair record</h1>
        <p>
          Began {data.startedAt}
          {data.simulated && ' (simulated time)'}
        </p>
      </header>
      <VerdictBox data={data} />
      <JobSection data={data} />
      <h2>Dose</h2>
      <figure>
        <DoseBar data={data} />
      </figure>
      <figure>
        <DoseChart data={data} snapshots={snapshots} />
        <figcaption>
          Solid: dose (left). Long dashes: target. Short dashes: irradiance at the sensor (right). 1
          J/cm² is {'10\u00a0000\u00a0J/m²'}.
        </figcaption>
      </figure>
      <DoseTable data={data} />
      <h2>Pressure</h2>
      <figure>
        <PressureChart data={data} snapshots={snapshots} />
        <figcaption>
          Solid: measured. Dashed: set-point. Dotted: local atmosphere, the zero of this job. Left
          axis absolute, right axis gauge: over (+) or under (−) the local atmosphere. S: seal
          check, V: vacuum, P: pressure, where there is no room for the word.
        </figcaption>
      </figure>
      <AdaptedTable data={data} />
      <SealTable data={data} />
      <CyclesTable data={data} />
      <h2>Limits of the profile</h2>
      <LimitsTable data={data} />
      <figure>
        <GlassChart data={data} snapshots={snapshots} />
      </figure>
      <h2>Uncertainty of what was measured</h2>
      <BudgetsTable data={data} />
    </>
  );
}

function History({ data }: { readonly data: ReportData }) {
  const { unit, profile, extra } = data.inputs;
  return (
    <>
      <h2>Alarms and holds</h2>
      <AlarmsTable data={data} />
      <HoldsTable data={data} />
      <h2>What the person answered</h2>
      <AnswersTable data={data} />
      <h2>Measured once</h2>
      <MeasuredTable data={data} />
      <h2>Phases</h2>
      <PhasesTable data={data} />
      <h2>Settings in force, as given</h2>
      <p class="note">The job sheet is printed whole under “Job and damage”.</p>
      <InputsTable title="Profile" file={profile} />
      <InputsTable title="Unit" file={unit} />
      <InputsTable title="Other inputs of this run" file={extra} />
      <Identity data={data} />
      <Plain data={data} />
    </>
  );
}
