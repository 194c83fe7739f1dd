/** Paper: the summary and the set first, then who has what and the cards, none broken across sheets, the sign-off last. */
export const PRINT_STYLE = `
@page{margin:14mm}
@media print{
:root{--paper:#fff;--sheet:#fff}
body{font-size:10pt}
main,footer{max-width:none;padding:0}
.filters,nav{display:none}
.on-screen{display:none}
.by-hand{display:block}
.blanks{display:grid;grid-template-columns:1fr 1fr;gap:0 8mm}
.blanks dd{border-bottom:1px solid #333;min-height:9mm}
section{margin:1.2rem 0}
.all{break-before:page}
.matrix tr,.card,.plot,.place,.sign-off{break-inside:avoid}
.card{content-visibility:visible;grid-template-columns:42mm minmax(0,1fr);gap:5mm;padding:3mm;margin-bottom:3mm}
.cards{display:grid;grid-template-columns:repeat(3,minmax(0,1fr));gap:0 3mm}
.card{grid-column:1/-1}
.card[data-standing=pass]{grid-column:auto;grid-template-columns:21mm minmax(0,1fr);gap:2mm;font-size:8pt}
.card[data-standing=pass] h3{font-size:8pt}
.card[data-standing=pass] .overlay text,.card[data-standing=pass] .facts,.card[data-standing=pass] details{display:none}
.card[hidden]{display:none}
.place{--tall:31mm;font-size:7pt}
.place .told{font-size:6.2pt;border-top:.3pt solid #999}
.at-once{display:block}
.missed{margin-top:2mm}
.missed ul{columns:3;column-gap:6mm}
.missed li{grid-template-columns:minmax(0,1fr) auto;min-height:0;break-inside:avoid}
.missed li svg,.missed button{display:none}
.missed details::details-content,.fine::details-content{content-visibility:visible;block-size:auto}
.missed summary,.fine summary{list-style:none}
.plots{grid-template-columns:repeat(4,1fr)}
a{color:inherit;text-decoration:none}
h2,h3,.legend{break-after:avoid}
.gauge,.asked,.point{print-color-adjust:exact;-webkit-print-color-adjust:exact}
}
`
