/**
 * The report as one self-contained page: no script, nothing loaded from anywhere, printable, and
 * the same bytes for the same results. All text passes through the renderer, which escapes it.
 */

import { render } from 'preact-render-to-string';
import { PageHead } from '../../../src/document/page-head.tsx';
import type { CheckRow } from '../check.ts';
import { figuresOf } from './figures.ts';
import { type GroupOutcome, type Outcome, type Summary, summaryOf } from './outcome.ts';
import { PlotFigure } from './plot.tsx';
import { EVIDENCE_STYLE } from './style.ts';

interface Groups {
  readonly groups: readonly GroupOutcome[];
}

export function renderEvidencePage(groups: readonly GroupOutcome[]): string {
  return `<!doctype html>\n${render(<Page groups={groups} />)}\n`;
}

function Page({ groups }: Groups) {
  return (
    <html lang="en">
      <PageHead title={'Outside checks of Meniscus'} style={EVIDENCE_STYLE} />
      <body>
        <main>
          <Head groups={groups} />
          {groups.map((group) => (
            <Group key={group.title} {...group} />
          ))}
        </main>
      </body>
    </html>
  );
}

function Head({ groups }: Groups) {
  const summary = summaryOf(groups);
  return (
    <>
      <header>
        <p>Meniscus, controller of a bench unit that fills and cures damage in laminated glass</p>
        <h1>Outside checks</h1>
        <p>
          What the model and the controller's arithmetic give, beside figures that do not come from
          this project. A tolerance follows from the precision of its source, or from the error that
          the method's order predicts. A row that misses its source says so and why.
        </p>
      </header>
      <Tiles {...summary} />
      <Origins {...summary} />
      <ol class="contents">
        {groups.map(({ title }) => (
          <li key={title}>
            <a href={`#${idOf(title)}`}>{title}</a>
          </li>
        ))}
      </ol>
    </>
  );
}

function Tiles({ groups, rows, results }: Summary) {
  const tiles = [
    ['groups', groups],
    ['rows', rows],
    ['hold', results.ok],
    ['miss as stated', results.misses],
    ['fail', results.FAILS],
  ] as const;
  return (
    <dl class="tiles">
      {tiles.map(([name, count]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{count}</dd>
        </div>
      ))}
    </dl>
  );
}

const ORIGIN_WORDS: Readonly<Record<CheckRow['obtained'], string>> = {
  seen: 'the figure was read where the source names it',
  'seen second-hand': 'the figure was read on a page that quotes the source; the source was not',
  computed: 'worked out apart from the model, from a published formula or a closed form',
  'independent solver': 'the equations written anew in Python and solved by scipy',
  'from memory': 'remembered; nobody has opened the source',
  'common practice': 'known in the trade, without a source',
};

function Origins({ obtained }: Summary) {
  return (
    <dl class="origins">
      {obtained.map(([name, count]) => (
        <>
          <dt>{name}</dt>
          <dd class="count">{count}</dd>
          <dd>{ORIGIN_WORDS[name]}</dd>
        </>
      ))}
    </dl>
  );
}

function Group({ title, outcomes, plots }: GroupOutcome) {
  const id = idOf(title);
  return (
    <section id={id}>
      <h2>{title}</h2>
      <div class="scroll">
        <table>
          <thead>
            <tr>
              <th scope="col">What, and from where</th>
              {['Expected', 'Model', 'Difference', 'Tolerance'].map((head) => (
                <th key={head} scope="col" class="number">
                  {head}
                </th>
              ))}
              {['Unit', 'Obtained', 'Result'].map((head) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {outcomes.map((outcome) => (
              <Row key={outcome.row.what} {...outcome} />
            ))}
          </tbody>
        </table>
      </div>
      {plots.length > 0 && (
        <div class="plots">
          {plots.map((plot, i) => (
            <PlotFigure key={plot.title} plot={plot} id={`${id}-plot-${i + 1}`} />
          ))}
        </div>
      )}
    </section>
  );
}

function Row(outcome: Outcome) {
  const { row, result, remark } = outcome;
  const { expected, actual, difference, tolerance } = figuresOf(outcome);
  return (
    <tr class={result}>
      <th scope="row">
        {row.what}
        <small>{row.source}</small>
        {remark !== '' && <small class="remark">{remark}</small>}
      </th>
      <td class="number">{expected}</td>
      <td class="number">{actual}</td>
      <td class="number">{difference}</td>
      <td class="number">{tolerance}</td>
      <td class="unit">{row.unit}</td>
      <td class="word">{row.obtained}</td>
      <td class="word">{result}</td>
    </tr>
  );
}

const idOf = (title: string): string =>
  title
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '');
