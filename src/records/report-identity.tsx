/**
 * What a reader needs to trust the record or not: every input as given, the board, the journal's
 * hash; and the plain words about what such a record can and cannot show.
 */
import type { ReportData } from './report-data.ts';
import { inputRowsOf } from './report-inputs.ts';
import { Table } from './report-table.tsx';

interface InputsProps {
  readonly title: string;
  readonly file: unknown;
}

export function InputsTable({ title, file }: InputsProps) {
  return (
    <>
      <h3>{title}</h3>
      <Table
        fields
        heads={['Field', 'Value']}
        empty="Nothing was given."
        rows={inputRowsOf(file).map(({ label, value, unit }) => [
          label,
          unit === '' ? value : `${value}\u00a0${unit}`,
        ])}
      />
    </>
  );
}

const INTACT_WORDS = {
  true: 'matches: the file is as it was written',
  false: 'DOES NOT MATCH: the file was changed after it was written',
  null: 'none: the journal has no end',
} as const;

export function Identity({ data }: { readonly data: ReportData }) {
  const { board, journal, hashes } = data;
  const rows: readonly (readonly [string, string])[] = [
    ['Program', `Meniscus ${data.meniscus}`],
    ['Board', `${board.kind}, serial ${board.serial}, firmware ${board.firmware}`],
    [
      'Board protects itself by',
      board.protection.map((p) => p.replaceAll('-', ' ')).join(', ') || 'nothing',
    ],
    ['Tick and lease', `${board.tickS} s and ${board.leaseS} s`],
    ['Seed', data.seed === null ? 'none' : String(data.seed)],
    ['Began', `${data.startedAt}${data.simulated ? ' (simulated time)' : ''}`],
    ['Frames and events', `${journal.frames} and ${journal.events}`],
    ['Checksum', INTACT_WORDS[`${journal.intact}`]],
  ];
  const sums: readonly (readonly [string, string])[] = [
    ['Journal, all bytes before its end line', journal.sha256],
    ['Profile', hashes.profile],
    ['Unit', hashes.unit],
    ['Job sheet', hashes.job],
  ];
  return (
    <>
      <h2>Identity of this record</h2>
      <Table fields heads={['What', 'Value']} empty="" rows={rows} />
      <h3>SHA-256</h3>
      <dl>
        {sums.map(([what, sum]) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd class="hash">{sum}</dd>
          </div>
        ))}
      </dl>
      <p class="note">
        The sums find changes; they are not a signature. Settings are summed as JSON with sorted
        keys.
      </p>
    </>
  );
}

export function Plain({ data: { dose } }: { readonly data: ReportData }) {
  return (
    <>
      <h2>What this record can and cannot show</h2>
      <ul>
        <li>A mark may remain visible. The glass is improved, not made new.</li>
        <li>
          It shows whether the process stayed within its limits. It cannot show how strong the glass
          is.
        </li>
        <li>The outcome is what the person saw and answered; the unit does not see the break.</li>
        <li>
          Dose is light that reached the sensor, with the sensor's own error;{' '}
          {dose.uncertainty === null
            ? 'no uncertainty is stated.'
            : 'its uncertainty is worked out from what the unit file states of sensor and clock, and is no better than that.'}
        </li>
        <li>
          It certifies nothing. Whether damage of this kind and place may be repaired is decided by
          local rules and by whoever inspects the vehicle.
        </li>
      </ul>
      <h2>Cautions</h2>
      <ul>
        <li>
          Do not touch or scrape a pit that is sticky: it needs more light. Uncured resin can cause
          lasting skin allergy.
        </li>
        <li>
          Look at the spot again after a day and after the first frost or heat. If a leg has grown,
          the pane is to be judged anew.
        </li>
        <li>
          Cured resin cannot be filled again. A break that was stopped half filled is for a trained
          person to judge.
        </li>
      </ul>
    </>
  );
}
