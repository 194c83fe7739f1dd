/** Paper: the summary with its sign-off on the first sheet, then the set, then the cards, none broken across sheets. */
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
.card[hidden]{display:none}
.place svg:first-child{height:29mm}
.plots{grid-template-columns:repeat(4,1fr)}
a{color:inherit;text-decoration:none}
h2,h3,.legend{break-after:avoid}
.gauge,.asked,.point{print-color-adjust:exact;-webkit-print-color-adjust:exact}
}
`
