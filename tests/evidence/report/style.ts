/** The page's one style sheet, inline so that the report is one file: for a screen and for A4. */
export const EVIDENCE_STYLE = `
*{box-sizing:border-box}
body{margin:0;background:#f4f5f6;color:#1b2430;font:16px/1.5 system-ui,sans-serif}
main{max-width:72rem;margin:0 auto;padding:1.5rem 1.75rem 3rem;background:#fff}
h1{font-size:1.6rem;line-height:1.2;margin:.2rem 0}
h2{font-size:1.3rem;margin:2.6rem 0 .5rem;padding-bottom:.25rem;border-bottom:2px solid #1b2430}
nav h2{font-size:1rem;margin:1rem 0 .2rem;border:0;padding:0}
h3{font-size:1.1rem;margin:2rem 0 .4rem}
p{margin:.4rem 0;max-width:48rem}
a{color:#0b5c8a}
.tiles{display:grid;grid-template-columns:repeat(auto-fit,minmax(8.5rem,1fr));gap:.6rem;margin:1rem 0;padding:0}
.tiles div{border:1px solid #aab3bc;padding:.5rem .7rem}
.tiles dt{font-size:.85rem;color:#4a5561}
.tiles dd{margin:0;font-weight:600;font-size:1.2rem}
.contents{columns:3 16rem;column-gap:2.6rem;padding-left:1.1rem;font-size:.92rem}
.contents li{break-inside:avoid}
.origins{display:grid;grid-template-columns:max-content max-content 1fr;gap:.15rem .9rem;margin:.6rem 0;font-size:.92rem}
.origins dt{font-weight:600}
.origins dd{margin:0}
.origins .count{text-align:right;font-variant-numeric:tabular-nums}
.scroll{overflow-x:auto}
table{width:100%;border-collapse:collapse;font-size:.88rem;line-height:1.4;margin:.4rem 0;font-variant-numeric:tabular-nums}
th,td{text-align:left;vertical-align:top;padding:.35rem .8rem .35rem 0;border-bottom:1px solid #d5dae0}
thead th{border-bottom:2px solid #7b8792;font-size:.82rem}
tbody th{font-weight:500;min-width:16rem}
th small,td small{display:block;font-weight:400;font-size:.95em;color:#4a5561;overflow-wrap:anywhere}
.remark{color:#1b2430}
td.number,th.number{text-align:right;white-space:nowrap}
td.word{white-space:nowrap}
td.unit{min-width:5.2rem}
tr.misses{background:#fdf4e0}
tr.misses .word:last-child{color:#7a4b00;font-weight:600}
tr.FAILS{background:#fceeec}
tr.FAILS .word:last-child{color:#8f1d1d;font-weight:700}
.plots{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,27rem),1fr));gap:1rem 2rem;margin:.9rem 0}
figure{margin:0;min-width:0;max-width:40rem}
figcaption{font-size:.95rem;font-weight:500;margin-bottom:.2rem}
figure>svg{display:block;width:100%;height:auto}
.legend{display:flex;flex-wrap:wrap;gap:.15rem 1.1rem;margin:.2rem 0 0;padding:0;list-style:none;font-size:.86rem}
.legend li{display:flex;align-items:center;gap:.4rem}
.legend svg{flex:none;overflow:visible}
@media print{@page{size:A4 landscape;margin:12mm}html{font-size:11px}body{background:#fff;font-size:1rem}main{max-width:none;padding:0}h2,thead{break-after:avoid}tr,figure,.tiles div{break-inside:avoid}.plots{grid-template-columns:1fr 1fr}.scroll{overflow:visible}*{print-color-adjust:exact;-webkit-print-color-adjust:exact}}
`;
