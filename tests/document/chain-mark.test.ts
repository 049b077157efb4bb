import { describe, expect, test } from 'vitest';
import type { PageDocument } from '../../src/document/blocks.ts';
import { certificate } from '../../src/document/certificate/certificate.ts';
import { type WhatWasHeld, whatWasChecked, withChainMark } from '../../src/document/chain-mark.ts';
import { renderHtml } from '../../src/document/html.tsx';
import { ENGLISH_PAPERS } from '../../src/document/paper-words.ts';
import { reportDocument } from '../../src/document/report/report-document.ts';
import { DOT_PNG, factsOf, pdfOf } from './document-data.ts';
import { readPdf } from './pdf-text.ts';

const facts = factsOf();
const PAGES: readonly (readonly [string, PageDocument])[] = [
  ['certificate', certificate(facts, ENGLISH_PAPERS)],
  ['report', reportDocument(facts, ENGLISH_PAPERS)],
];

describe.each([
  ['differs', 'DOES NOT AGREE WITH THE CHAIN OF RECORDS'],
  ['not recorded', 'NOT RECORDED IN A CHAIN'],
] as const)('of a record that %s', (state, words) => {
  test.each(PAGES)('every sheet of the %s says so, first of all', async (_, page) => {
    const marked = withChainMark(page, state, ENGLISH_PAPERS.certificate);
    expect(marked.blocks[0]).toMatchObject({
      kind: 'banner',
      text: expect.stringContaining(words),
    });
    const { bytes } = await pdfOf(marked);
    const { pages, text } = readPdf(bytes);
    expect(pages).toBeGreaterThanOrEqual(1);
    const sheets = text.split(/(?<=\d+ \/ \d+)\n/).filter((sheet) => sheet.trim() !== '');
    expect(sheets).toHaveLength(pages);
    for (const sheet of sheets) expect(sheet).toContain(words);
    const html = renderHtml(marked);
    expect(html).toContain(`<p class="every-sheet">${words}</p>`);
    expect(html).toMatch(/\.every-sheet\{position:fixed/);
  });

  test('the certificate is still one page', async () => {
    const marked = withChainMark(
      certificate(facts, ENGLISH_PAPERS),
      state,
      ENGLISH_PAPERS.certificate,
    );
    expect(readPdf((await pdfOf(marked)).bytes).pages).toBe(1);
  });
});

test('a page that agrees with the chain is left as it is', () => {
  for (const [, page] of PAGES)
    expect(withChainMark(page, 'agrees', ENGLISH_PAPERS.certificate)).toEqual(page);
});

test('a report says what was held against the chain, and that photographs are not', () => {
  const rows = (held: WhatWasHeld, outside = {}) =>
    JSON.stringify(whatWasChecked({ ...facts, ...outside }, held, ENGLISH_PAPERS));
  const agrees: WhatWasHeld = { journal: 'agrees', people: 'agree' };
  expect(rows(agrees)).toContain('and are valid');
  expect(rows({ ...agrees, journal: 'differs' })).toContain('DOES NOT AGREE');
  const photo = { bytes: DOT_PNG, type: 'image/png' } as const;
  expect(rows(agrees, { photos: { before: photo, after: null } })).toContain('NOT checked');
  const named = { personal: { technician: 'demo' } };
  expect(rows(agrees, named)).toContain('agree with the salted hash');
  expect(rows({ ...agrees, people: 'not recorded' }, named)).toContain('NOT checked');
});
