import { describe, expect, test } from 'vitest';
import type { Block, PageDocument } from '../../src/document/blocks.ts';
import { certificate } from '../../src/document/certificate/certificate.ts';
import { renderHtml } from '../../src/document/html.tsx';
import { ENGLISH_PAPERS } from '../../src/document/paper-words.ts';
import { reportDocument } from '../../src/document/report/report-document.ts';
import { DOT_PNG, factsOf, longFacts, PANE, pdfOf } from './document-data.ts';
import { readPdf, squeezed } from './pdf-text.ts';

const pageOf = (blocks: readonly Block[]): PageDocument => ({
  title: 'Demo',
  language: 'en',
  fit: 'flow',
  foot: 'Foot of demo',
  blocks,
});

const ONE_OF_EACH: readonly Block[] = [
  { kind: 'heading', level: 1, text: 'Word1' },
  { kind: 'paragraph', text: 'Word2 with ² · ° ± Σ Ω ñ á ¿' },
  { kind: 'list', items: ['Word3'] },
  { kind: 'banner', text: 'Word4' },
  { kind: 'notice', grade: 'bad', title: 'Word5', lines: ['Word6'], notes: ['Word7'] },
  { kind: 'tiles', tiles: [{ label: 'Word8', value: 'Word9', notes: ['Word10'] }] },
  { kind: 'fields', caption: 'Word11', rows: [['Word12', 'Word13']], empty: '' },
  { kind: 'table', heads: ['Word14'], rows: [['Word15']], empty: '' },
  { kind: 'table', heads: ['never'], rows: [], empty: 'Word16' },
  {
    kind: 'figure',
    id: 'demo',
    svg: '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 20" font-size="9"><text y="10">Word17</text></svg>',
    title: 'demo',
    description: 'demo',
    caption: 'Word18',
  },
  {
    kind: 'photo',
    bytes: DOT_PNG,
    type: 'image/png',
    description: '',
    caption: 'Word19',
    highestMm: 9,
  },
  { kind: 'columns', columns: [{ share: 1, blocks: [{ kind: 'paragraph', text: 'Word20' }] }] },
  { kind: 'signatures', labels: ['Word21'] },
  { kind: 'page-break' },
  { kind: 'paragraph', text: 'Word22' },
];

describe('a page on paper', () => {
  test('shows the text of every kind of block, and turns where it is told to', async () => {
    const { pages, text } = readPdf((await pdfOf(pageOf(ONE_OF_EACH))).bytes);
    for (let n = 1; n <= 22; n++) expect(text).toMatch(new RegExp(`Word${n}\\b`));
    expect(text).toContain('with ² · ° ± Σ Ω ñ á ¿');
    expect(text).not.toContain('never');
    expect(pages).toBe(2);
    expect(text).toContain('2 / 2');
  });

  test('shows the same text as the page in HTML', () => {
    const html = renderHtml(pageOf(ONE_OF_EACH));
    for (let n = 1; n <= 22; n++) expect(html).toMatch(new RegExp(`Word${n}\\b`));
  });

  test('marks what its font lacks, which HTML shows', async () => {
    const page = pageOf([{ kind: 'paragraph', text: 'Demo 日本 name\u0007' }]);
    expect(readPdf((await pdfOf(page)).bytes).text).toContain('Demo □□ name');
    expect(renderHtml(page)).toContain('日本');
  });

  test('repeats the heads of a table on every page and cuts no row', async () => {
    const rows = Array.from({ length: 150 }, (_, i) => [`row${i}.`, 'demo '.repeat(30)]);
    const page = pageOf([{ kind: 'table', heads: ['Name', 'Words'], rows, empty: '' }]);
    const { pages, text } = readPdf((await pdfOf(page)).bytes);
    expect(pages).toBeGreaterThan(2);
    expect(text.match(/^Name$/gm)).toHaveLength(pages);
    for (const [name] of rows) expect(text).toContain(`${name}`);
  });

  test('keeps a heading with what it heads', async () => {
    const filler = (n: number): Block[] =>
      Array.from({ length: n }, () => ({ kind: 'paragraph', text: 'filler' }));
    for (const n of [44, 45, 46, 47, 48, 49]) {
      const blocks: readonly Block[] = [
        ...filler(n),
        { kind: 'heading', level: 2, text: 'Headed' },
        { kind: 'paragraph', text: 'by this' },
      ];
      const { text } = readPdf((await pdfOf(pageOf(blocks))).bytes);
      expect(text).toMatch(/Headed\nby this/);
    }
  });

  test('is the same bytes for the same facts, photographs and drawings included', async () => {
    for (const make of [certificate, reportDocument]) {
      const page = () => make(longFacts(), ENGLISH_PAPERS);
      const [first, second] = [await pdfOf(page()), await pdfOf(page())];
      expect(Buffer.compare(Buffer.from(first.bytes), Buffer.from(second.bytes))).toBe(0);
      expect(renderHtml(page())).toBe(renderHtml(page()));
    }
  });
});

describe('the full report on paper', () => {
  test('carries every cell of every table of its document', async () => {
    const page = reportDocument(longFacts(), ENGLISH_PAPERS);
    const text = squeezed(readPdf((await pdfOf(page)).bytes).text);
    const cells = page.blocks.flatMap((block) =>
      block.kind === 'table' || block.kind === 'fields' ? block.rows.flat() : [],
    );
    expect(cells.length).toBeGreaterThan(100);
    for (const cell of cells) expect(text).toContain(squeezed(cell));
  });

  test('draws a pane that was handed in', async () => {
    const intake = { sheet: {}, assessment: null, drawingSvg: PANE, briefSvg: null };
    const without = (await pdfOf(reportDocument(factsOf(), ENGLISH_PAPERS))).bytes.length;
    const drawn = await pdfOf(reportDocument({ ...factsOf(), intake }, ENGLISH_PAPERS));
    expect(drawn.bytes.length).toBeGreaterThan(without);
  });
});
