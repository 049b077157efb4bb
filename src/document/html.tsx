/**
 * Renders a page document as one self-contained, printable HTML file: no external resources, no
 * scripts, and only elements that a screen reader expects. The renderer escapes all text. Foreign
 * drawings are shown as images, so that nothing in them can reach this page.
 */
import type { ComponentChildren } from 'preact';
import { render } from 'preact-render-to-string';
import { type Block, GRADE_MARKS, type PageDocument } from './blocks.ts';
import { pageStyle } from './html-style.ts';
import { FieldsTable, ListTable } from './html-table.tsx';
import { PageHead } from './page-head.tsx';
import { viewBoxOf } from './view-box.ts';

/** `scale`: text size when a page that must fit is printed. */
export function renderHtml(page: PageDocument, scale = 1): string {
  const { title, language, blocks, fit, mark } = page;
  return `<!doctype html>\n${render(
    <html lang={language}>
      <PageHead title={title} style={pageStyle(fit, scale)} />
      <body>
        {mark === undefined ? null : <p class="every-sheet">{mark}</p>}
        <main class={fit}>
          <Blocks blocks={blocks} />
        </main>
      </body>
    </html>,
  )}\n`;
}

function Blocks({ blocks }: { readonly blocks: readonly Block[] }) {
  return (
    <>
      {blocks.map((block, index) => (
        <Part key={`${index} ${block.kind}`} block={block} />
      ))}
    </>
  );
}

type Of<K extends Block['kind']> = Extract<Block, { readonly kind: K }>;

function Part({ block }: { readonly block: Block }) {
  switch (block.kind) {
    case 'heading':
      return <Heading block={block} />;
    case 'paragraph':
      return <p class={block.look === 'note' ? 'note' : ''}>{block.text}</p>;
    case 'list':
      return (
        <ul>
          {block.items.map((item) => (
            <li key={item}>{item}</li>
          ))}
        </ul>
      );
    case 'banner':
      return <p class="banner">{block.text}</p>;
    case 'notice':
      return <Notice block={block} />;
    case 'tiles':
      return <Tiles block={block} />;
    case 'fields':
      return <FieldsTable block={block} />;
    case 'table':
      return <ListTable block={block} />;
    case 'figure':
      return <Figure block={block} />;
    case 'photo':
      return <Photo block={block} />;
    case 'columns':
      return <Columns block={block} />;
    case 'signatures':
      return <Signatures block={block} />;
    case 'page-break':
      return <div class="turn" />;
  }
}

function Heading({ block: { level, text } }: { readonly block: Of<'heading'> }) {
  if (level === 1) return <h1>{text}</h1>;
  return level === 2 ? <h2>{text}</h2> : <h3>{text}</h3>;
}

function Notice({ block: { grade, title, lines, notes } }: { readonly block: Of<'notice'> }) {
  return (
    <section class={`verdict ${grade}`} aria-label="Verdict">
      <div class="mark" aria-hidden="true">
        {GRADE_MARKS[grade]}
      </div>
      <div>
        <h2>{title}</h2>
        {lines.map((line) => (
          <p key={line}>{line}</p>
        ))}
        {notes.map((note) => (
          <p class="note" key={note}>
            {note}
          </p>
        ))}
      </div>
    </section>
  );
}

function Tiles({ block: { tiles } }: { readonly block: Of<'tiles'> }) {
  return (
    <dl class="tiles">
      {tiles.map(({ label, value, notes }) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd>
            {value}
            {notes.map((note) => (
              <small key={note}>{note}</small>
            ))}
          </dd>
        </div>
      ))}
    </dl>
  );
}

const SMALL_UNITS = 600;

function Figure({ block }: { readonly block: Of<'figure'> }) {
  const { svg, title, description, caption, highestMm, foreign = false } = block;
  const small = viewBoxOf(svg).width < SMALL_UNITS;
  return (
    <figure>
      {foreign ? (
        <img
          src={dataUrl('image/svg+xml', svg)}
          alt={`${title}. ${description}`}
          style={highest(highestMm)}
        />
      ) : (
        <Scrolling label={title}>
          <div class={small ? 'small' : ''} dangerouslySetInnerHTML={{ __html: svg }} />
        </Scrolling>
      )}
      {caption !== undefined && <figcaption>{caption}</figcaption>}
    </figure>
  );
}

interface ScrollingProps {
  readonly label: string;
  readonly children: ComponentChildren;
}

function Scrolling({ label, children }: ScrollingProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a chart that scrolls must be reachable by keys.
    <section class="chart" aria-label={label} tabIndex={0}>
      {children}
    </section>
  );
}

/** The page's style defines how large a millimetre is drawn. */
const highest = (millimetres: number | undefined): string =>
  millimetres === undefined ? '' : `max-height:calc(${millimetres}mm*var(--scale))`;

function Photo({ block }: { readonly block: Of<'photo'> }) {
  const { bytes, type, description, caption, highestMm } = block;
  return (
    <figure class="photo">
      <img src={dataUrl(type, bytes)} alt={description} style={highest(highestMm)} />
      <figcaption>{caption}</figcaption>
    </figure>
  );
}

const dataUrl = (type: string, content: Uint8Array | string): string =>
  `data:${type};base64,${Buffer.from(content as string).toString('base64')}`;

function Columns({ block: { columns } }: { readonly block: Of<'columns'> }) {
  const shares = columns.map(({ share }) => `${share}fr`).join(' ');
  return (
    <div class="columns" style={`grid-template-columns:${shares}`}>
      {columns.map(({ share, blocks }, index) => (
        <div key={`${index} ${share}`}>
          <Blocks blocks={blocks} />
        </div>
      ))}
    </div>
  );
}

function Signatures({ block: { labels } }: { readonly block: Of<'signatures'> }) {
  return (
    <div class="signatures">
      {labels.map((label) => (
        <p key={label}>{label}</p>
      ))}
    </div>
  );
}
