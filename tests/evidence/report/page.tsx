/**
 * The report as one self-contained page: no script, nothing loaded from anywhere, printable, and
 * the same bytes for the same results. All text passes through the renderer, which escapes it.
 */

import { render } from 'preact-render-to-string';
import { PageHead } from '../../../src/document/page-head.tsx';
import { type CheckRow, KINDS, type Kind } from '../check.ts';
import { figuresOf } from './figures.ts';
import { KIND_TITLES, KIND_WORDS } from './kinds.ts';
import { type GroupOutcome, type Outcome, ofKind, type Summary, summaryOf } from './outcome.ts';
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
          {sectionsOf(groups).map(([kind, own]) => (
            <section key={kind}>
              <h2 class="kind">{KIND_TITLES[kind]}</h2>
              <p>{KIND_WORDS[kind]}</p>
              {own.map((group) => (
                <Group key={group.title} id={idOf(kind, group.title)} {...group} />
              ))}
            </section>
          ))}
        </main>
      </body>
    </html>
  );
}

const sectionsOf = (
  groups: readonly GroupOutcome[],
): readonly (readonly [Kind, readonly GroupOutcome[]])[] =>
  KINDS.flatMap((kind) => {
    const own = ofKind(groups, kind);
    return own.length === 0 ? [] : [[kind, own] as const];
  });

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
      {sectionsOf(groups).map(([kind, own]) => (
        <nav key={kind}>
          <h2>{KIND_TITLES[kind]}</h2>
          <ol class="contents">
            {own.map(({ title }) => (
              <li key={title}>
                <a href={`#${idOf(kind, title)}`}>{title}</a>
              </li>
            ))}
          </ol>
        </nav>
      ))}
    </>
  );
}

/** A tile a kind: their rows are never added up. */
function Tiles({ kinds, results }: Summary) {
  const tiles = [
    ...KINDS.map((kind) => {
      const { facts, rows } = kinds[kind];
      return [KIND_TITLES[kind], kind === 'published' ? `${facts} in ${rows} rows` : rows] as const;
    }),
    ['rows that miss as stated', results.misses],
    ['rows that fail', results.FAILS],
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

function Group({ id, title, outcomes, plots }: GroupOutcome & { readonly id: string }) {
  return (
    <section id={id}>
      <h3>{title}</h3>
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

const idOf = (kind: Kind, title: string): string =>
  `${kind}-${title}`
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '');
