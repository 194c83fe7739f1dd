import { MASTERS_STYLE } from './masters.ts'
import { OVERLAY_STYLE } from './overlay.ts'
import { PRINT_STYLE } from './print.ts'
import { SET_STYLE } from './set.ts'

const COLORS = `
:root{color-scheme:light dark;--paper:#f6f4f0;--sheet:#fffefb;--ink:#22201c;--soft:#5d574d;--rule:#d9d3c8;--link:#0b4f8a;
--fail:#a3142b;--unsure:#7d4a00;--warning:#5a3d9e;--pass:#17663a;--asked:#cfe3d6}
@media screen and (prefers-color-scheme:dark){:root{--paper:#191816;--sheet:#24221f;--ink:#f0ece4;--soft:#b9b1a3;--rule:#45413a;--link:#8cc4ff;
--fail:#ff9ba6;--unsure:#ffc56e;--warning:#cdb8ff;--pass:#8bdca8;--asked:#274433}}
`

const TEXT = `
*{box-sizing:border-box}
[hidden]{display:none!important}
html{scroll-padding-top:4.5rem}
.sr{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
body{margin:0;background:var(--paper);color:var(--ink);font:16px/1.5 system-ui,sans-serif;overflow-wrap:anywhere}
main,footer{max-width:76rem;margin:0 auto;padding:0 1.25rem}
main{padding-top:1.2rem}
h1,h2{font-family:Charter,Georgia,'Liberation Serif',serif;font-weight:600;line-height:1.2}
h1{font-size:clamp(1.45rem,3vw,2.1rem);margin:.2rem 0 .6rem;display:flex;gap:.6rem;align-items:flex-start}
h1 .mark{width:.85em;height:.85em;margin-top:.18em}
h2{font-size:1.45rem;margin:0 0 .4rem}
h3{font-size:1rem;margin:.3rem 0;font-weight:600}
p{margin:.25rem 0}
ul{list-style:none;margin:0;padding:0}
section{margin:2.5rem 0}
a{color:var(--link)}
:focus-visible{outline:3px solid var(--link);outline-offset:2px}
.small,.facts,.spec{color:var(--soft);font-size:.9rem}
code{font-size:.85em}
.mark{width:1em;height:1em;flex:none;fill:none;stroke:currentColor;stroke-width:2.2;stroke-linecap:round;stroke-linejoin:round;vertical-align:-.12em}
.fail>.mark,.badge.fail,.fail .rule,.verdict.fail h1 .mark{color:var(--fail)}
.unsure>.mark,.badge.unsure,.unsure .rule,.verdict.unsure h1 .mark{color:var(--unsure)}
.warning>.mark,.badge.warning,.warning .rule{color:var(--warning)}
.pass>.mark,.badge.pass,.verdict.pass h1 .mark{color:var(--pass)}
.missing>.mark,.double>.mark,.perhaps>.mark{color:var(--fail)}
.waived .rule,.known .rule,.absent>.mark{color:var(--soft)}
.tally{display:flex;flex-wrap:wrap;gap:.2rem 1.4rem;margin:0 0 .4rem}
.tally b{font-size:1.25rem;font-variant-numeric:tabular-nums}
footer{border-top:1px solid var(--rule);margin-top:3rem;padding-top:.8rem;padding-bottom:2rem}
.part h1{margin-bottom:.2rem}
.parts ul,.pages{display:flex;flex-wrap:wrap;gap:.2rem 1.1rem}
.parts{font-size:.95rem;margin-top:.4rem}
.parts a,.pages a,.pages li{display:inline-block;min-height:1.5rem}
`

const BLOCKS = `
.sign-off{border:1px solid var(--rule);background:var(--sheet);padding:1rem 1.2rem;border-radius:3px;margin:1.5rem 0}
.sign-off dl{margin:0}
.sign-off dl div{display:flex;gap:.7rem;align-items:baseline;margin:.25rem 0}
.sign-off dt{color:var(--soft);flex:0 0 6.2rem}
.sign-off dd{margin:0;flex:1}
.by-hand{display:none}
.legend{display:flex;flex-wrap:wrap;gap:.3rem 1.2rem;font-size:.85rem;color:var(--soft);margin:.5rem 0 1rem}
.legend svg{width:2rem;height:1rem;vertical-align:-.15rem}
.card{display:grid;grid-template-columns:minmax(9rem,20rem) minmax(0,1fr);gap:1.4rem;background:var(--sheet);border:1px solid var(--rule);border-radius:3px;padding:1rem;margin:0 0 1rem;content-visibility:auto;contain-intrinsic-size:auto 30rem}
.card:target{outline:3px solid var(--link)}
.card h3 a{display:inline-block;min-height:1.5rem}
.badge{font-weight:600}
.open{margin-top:.8rem}
.open>li{border-left:3px solid currentColor;padding:.1rem 0 .1rem .8rem;margin:.8rem 0}
.open>li.fail{border-color:var(--fail)}.open>li.unsure{border-color:var(--unsure)}.open>li.warning{border-color:var(--warning)}.open>li:is(.waived,.known){border-color:var(--soft)}
.whole .open{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(28rem,100%),1fr));gap:0 2rem}
.fix b{display:inline-block;font-size:.8rem;border:1px solid var(--soft);border-radius:2px;padding:0 .35rem;margin-right:.3rem}
.numbers{display:flex;flex-wrap:wrap;gap:0 1.6rem;margin:.1rem 0;font-variant-numeric:tabular-nums}
.numbers div{display:flex;gap:.5rem}
.numbers dt{color:var(--soft);flex:none}
.numbers dd{margin:0;font-weight:600}
.scroll-x{overflow-x:auto;background:var(--sheet);border:1px solid var(--rule);border-radius:3px;padding:.4rem .9rem;margin:.8rem 0}
.matrix{margin:0}
.matrix thead th{border:0}
.matrix th[scope=row]{min-width:8rem;overflow-wrap:break-word}
.matrix td{white-space:nowrap}
.matrix td a{min-width:1.5rem}
.matrix td a,.unplaced a{display:inline-block;min-height:1.5rem}
details{margin-top:.8rem;font-size:.9rem}
summary{cursor:pointer;color:var(--soft);min-height:1.5rem}
.scroll-x td,.scroll-x th{min-width:5rem}
table{border-collapse:collapse;width:100%;margin-top:.4rem}
th,td{text-align:left;font-weight:400;padding:.2rem .8rem .2rem 0;border-top:1px solid var(--rule);vertical-align:top}
thead th{color:var(--soft)}
.eyes{margin:.8rem 0}
.scroll{overflow:auto;max-width:max-content}
.eyes img{display:block;max-width:none}
.eyes figcaption{font-size:.85rem;color:var(--soft)}
.lines .card{display:flex;flex-wrap:wrap;gap:.2rem 1rem;padding:.4rem .8rem;margin:0 0 .3rem;contain-intrinsic-size:auto 3rem;align-items:baseline}
.plots{display:grid;grid-template-columns:repeat(auto-fill,minmax(17.5rem,1fr));gap:1rem;margin-top:.8rem}
.plot{margin:0;background:var(--sheet);border:1px solid var(--rule);border-radius:3px;padding:.6rem}
.plot figcaption{font-weight:600}
.plot svg{display:block;width:100%}
.plot text{font-size:11px;fill:var(--soft)}
.plot .asked{fill:var(--asked)}
.plot .axis{stroke:var(--soft);stroke-width:1}
.point{stroke:var(--ink);stroke-width:1.2;fill:var(--ink)}
.point.fail{stroke:var(--fail);stroke-width:2.2;fill:none}.point.unsure{fill:var(--sheet);stroke:var(--unsure);stroke-width:2}.point.warning{fill:var(--warning);stroke:var(--warning)}
.plot a:hover .point,.plot a:focus .point{stroke-width:4}
.plot .out{display:none}
@media (max-width:44rem){.exceptions thead{position:absolute;clip-path:inset(50%)}.exceptions tr,.exceptions th,.exceptions td{display:block}.exceptions td::before{content:attr(data-head) ': ';font-weight:600}main,footer{padding-left:.8rem;padding-right:.8rem}.card{grid-template-columns:minmax(0,1fr);gap:.8rem}.plate{max-width:20rem}}
`

/** The look of the page: its own, light or dark as the reader's system is, and made for A4 and Letter in print. */
export const STYLE = `${COLORS}${TEXT}${BLOCKS}${SET_STYLE}${OVERLAY_STYLE}${MASTERS_STYLE}${PRINT_STYLE}`
