/**
 * The single style sheet of certificate and report, inline so that each is one file that reads well
 * on a telephone, a desktop and paper. Grades differ by mark and words as well as by colour; text
 * keeps a contrast of 4.5 to 1 (WCAG 2.2, 1.4.3).
 */
import type { PageDocument } from './blocks.ts';

const EVERYWHERE = `
*{box-sizing:border-box}
:root{--scale:1.4}
body{margin:0;background:#f4f5f6;color:#1b2430;font:16px/1.5 system-ui,sans-serif}
main{max-width:54rem;margin:0 auto;padding:1.5rem 1.75rem 3rem;background:#fff}
.note,figcaption,caption{color:#4a5561;font-size:.88em}
h1{font-size:1.6em;line-height:1.2;margin:.2em 0}
h2{font-size:1.15em;margin:1.9em 0 .5em;padding-bottom:.25em;border-bottom:2px solid #1b2430}
h3{font-size:1em;margin:1.4em 0 .3em}
p{margin:.4em 0;overflow-wrap:anywhere}
.banner{margin:0 0 1em;padding:.6em .9em;border:2px dashed #1b2430;font-weight:600}
.every-sheet{position:fixed;bottom:0;left:0;right:0;margin:0;padding:.3em .9em;background:#8f1d1d;color:#fff;font-weight:700;text-align:center}
.verdict{display:flex;gap:1em;margin:1.2em 0;padding:1em 1.1em;border:2px solid;border-left-width:.6em}
.verdict .mark{font-size:2.4em;line-height:1;font-weight:700;min-width:2.2rem;text-align:center}
.verdict h2{margin:0;padding:0;border:0;font-size:1.35em}
.verdict p{color:#1b2430}
.good{border-color:#0a5f54;background:#eaf5f2}
.good .mark,.good h2{color:#0a5f54}
.caution{border-color:#7a4b00;background:#fdf4e0}
.caution .mark,.caution h2{color:#7a4b00}
.bad{border-color:#8f1d1d;background:#fceeec}
.bad .mark,.bad h2{color:#8f1d1d}
.tiles{display:grid;grid-template-columns:repeat(auto-fit,minmax(9em,1fr));gap:.6em;margin:0;padding:0}
.tiles div{border:1px solid #aab3bc;padding:.5em .7em}
.tiles dt{font-size:.85em;color:#4a5561}
.tiles dd{margin:0;font-weight:600}
.tiles small{display:block;font-weight:400;color:#4a5561}
figure{margin:.8em 0}
.chart{overflow-x:auto}
.chart svg{display:block;width:100%;min-width:44rem;height:auto}
.chart .small svg{min-width:0;max-width:36rem}
figure>img{display:block;max-width:100%;height:auto}
.columns{display:grid;gap:1.4em;align-items:start}
.scroll{overflow-x:auto}
table{width:100%;border-collapse:collapse;font-size:.92em;margin:.4em 0;font-variant-numeric:tabular-nums}
caption{text-align:left;padding-bottom:.3em}
th,td{text-align:left;vertical-align:top;padding:.3em .7em .3em 0;border-bottom:1px solid #d5dae0;white-space:pre-line;overflow-wrap:anywhere}
td.whole{white-space:nowrap}
thead th{border-bottom:2px solid #7b8792;font-size:.85em;overflow-wrap:normal}
tbody th{font-weight:500}
.fields th{width:var(--labels,34%);overflow-wrap:break-word;color:#4a5561;font-weight:400}
ul{margin:.4em 0;padding-left:1.2em}
.signatures{display:grid;grid-auto-flow:column;grid-auto-columns:1fr;gap:2em;margin-top:2.6em}
.signatures p{border-top:1px solid #1b2430;font-size:.8em;color:#4a5561;margin:0;padding-top:.2em}
@media (max-width:36rem){main{padding:1rem .9rem 2rem}h1{font-size:1.35em}.verdict{gap:.6em;padding:.8em}.verdict .mark{font-size:1.8em;min-width:1.5rem}table{font-size:.86em}th,td{padding-right:.5em}.columns{grid-template-columns:1fr!important}.signatures{grid-auto-flow:row;gap:2.6em}.wide thead{position:absolute;clip-path:inset(50%);width:1px;height:1px;overflow:hidden}.wide tr,.wide td,.wide tbody,.wide caption{display:block}.wide{display:block}.wide tr{border-bottom:2px solid #7b8792;padding:.3em 0}.wide td{display:grid;grid-template-columns:7.5em 1fr;gap:.6em;border:0;padding:.12em 0}.wide td::before{content:attr(data-head);color:#4a5561}}
`;

const ON_PAPER = `body{background:#fff}main{max-width:none;padding:0}caption,thead,h2,h3{break-after:avoid}figure,tr,.verdict,.tiles div,.signatures{break-inside:avoid}.turn{break-before:page}.chart,.scroll{overflow:visible}.chart svg{min-width:0}*{print-color-adjust:exact;-webkit-print-color-adjust:exact}`;

/** A one-page document names no paper size: its content fits both A4 and Letter. */
const SHEETS: Readonly<Record<PageDocument['fit'], (scale: number) => string>> = {
  flow: () => '@page{size:A4;margin:14mm}:root{--scale:1}html{font-size:12px}body{font-size:1rem}',
  'one-page': (scale) =>
    `@page{margin:10mm 12mm}:root{--scale:${(0.94 * scale).toFixed(2)}}body{font-size:${(11.5 * scale).toFixed(2)}px;line-height:1.28}h1{margin:0}h2{margin:.6em 0 .2em;padding-bottom:.1em}th,td{padding-top:.1em;padding-bottom:.1em}.verdict{margin:.4em 0;padding:.4em .7em}.banner{margin:0 0 .4em;padding:.3em .6em}figure{margin:.3em 0}p{margin:.2em 0}`,
};

/** A screen does not limit the height, so there a certificate is set like any other page. */
export const pageStyle = (fit: PageDocument['fit'], scale: number): string =>
  `${EVERYWHERE}@media print{${ON_PAPER}${SHEETS[fit](scale)}}\n`;
