/**
 * The page's one style sheet, inline so that the report is one file: readable on a telephone, on a
 * desktop and on A4 paper. Grades differ by mark and words as well as by colour; text keeps a
 * contrast of 4.5 to 1 (WCAG 2.2, 1.4.3).
 */
export const REPORT_STYLE = `
*{box-sizing:border-box}
body{margin:0;background:#f4f5f6;color:#1b2430;font:16px/1.5 system-ui,sans-serif}
main{max-width:54rem;margin:0 auto;padding:1.5rem 1.75rem 3rem;background:#fff}
header p,.note,figcaption,caption,footer{color:#4a5561}
h1{font-size:1.6rem;line-height:1.2;margin:.2rem 0}
h2{font-size:1.15rem;margin:2.2rem 0 .6rem;padding-bottom:.25rem;border-bottom:2px solid #1b2430}
h3{font-size:1rem;margin:1.4rem 0 .3rem}
p{margin:.4rem 0}
.banner{margin:0 0 1rem;padding:.6rem .9rem;border:2px dashed #1b2430;font-weight:600}
.verdict{display:flex;gap:1rem;margin:1.2rem 0;padding:1rem 1.1rem;border:2px solid;border-left-width:.6rem}
.verdict .mark{font-size:2.4rem;line-height:1;font-weight:700;min-width:2.2rem;text-align:center}
.verdict h2{margin:0;padding:0;border:0;font-size:1.35rem}
.verdict p{color:#1b2430}
.good{border-color:#0a5f54;background:#eaf5f2}
.good .mark,.good h2{color:#0a5f54}
.caution{border-color:#7a4b00;background:#fdf4e0}
.caution .mark,.caution h2{color:#7a4b00}
.bad{border-color:#8f1d1d;background:#fceeec}
.bad .mark,.bad h2{color:#8f1d1d}
.tiles{display:grid;grid-template-columns:repeat(auto-fit,minmax(9rem,1fr));gap:.6rem;margin:0;padding:0}
.tiles div{border:1px solid #aab3bc;padding:.5rem .7rem}
.tiles dt{font-size:.85rem;color:#4a5561}
.tiles dd{margin:0;font-weight:600}
.tiles small{display:block;font-weight:400;color:#4a5561}
figure{margin:.8rem 0}
figcaption,.note,caption{font-size:.88rem}
.chart{overflow-x:auto}
.chart svg{display:block;width:100%;min-width:44rem;height:auto}
.chart svg.small{min-width:0;max-width:36rem}
.scroll{overflow-x:auto}
table{width:100%;border-collapse:collapse;font-size:.92rem;margin:.4rem 0;font-variant-numeric:tabular-nums}
caption{text-align:left;padding-bottom:.3rem}
th,td{text-align:left;vertical-align:top;padding:.3rem .7rem .3rem 0;border-bottom:1px solid #d5dae0}
thead th{border-bottom:2px solid #7b8792;font-size:.85rem}
tbody th{font-weight:500}
td.number,th.number{text-align:right;white-space:nowrap}
.fields th,.fields td:first-child{width:38%}
.hash,.pre{overflow-wrap:anywhere}
.hash{font:.82rem/1.45 ui-monospace,monospace}
.pre{white-space:pre-wrap}
ul{margin:.4rem 0;padding-left:1.2rem}
@media (max-width:36rem){main{padding:1rem .9rem 2rem}h1{font-size:1.35rem}.verdict{gap:.6rem;padding:.8rem}.verdict .mark{font-size:1.8rem;min-width:1.5rem}table{font-size:.86rem}th,td{padding-right:.5rem}.wide thead{position:absolute;clip-path:inset(50%);width:1px;height:1px;overflow:hidden}.wide tr,.wide td,.wide tbody,.wide caption{display:block}.wide{display:block}.wide tr{border-bottom:2px solid #7b8792;padding:.3rem 0}.wide td{display:grid;grid-template-columns:7.5rem 1fr;gap:.6rem;border:0;padding:.12rem 0}.wide td::before{content:attr(data-head);color:#4a5561}}
@media print{@page{size:A4;margin:14mm}html{font-size:12px}body{background:#fff;font-size:1rem}caption,thead{break-after:avoid}main{max-width:none;padding:0}h2,h3{break-after:avoid}figure,tr,.verdict,.tiles div{break-inside:avoid}.chart,.scroll{overflow:visible}.chart svg{min-width:0}*{print-color-adjust:exact;-webkit-print-color-adjust:exact}}
`;
