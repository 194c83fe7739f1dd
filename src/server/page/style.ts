/**
 * The look that all pages share: dark on light or light on dark as the reader's system is, with contrasts of 7 to 1 for text
 * (WCAG 2.2, 1.4.6).
 */
export const STYLE = `
:root{color-scheme:light dark;--paper:#f6f4f0;--sheet:#fffefb;--ink:#191713;--soft:#4a453c;--rule:#c9c2b5;--link:#0a4277;
--fail:#8c0f22;--unsure:#5f3700;--pass:#0d4f2a;--on:#ffffff;--one:#ffd166;--two:#7fd8ff;--three:#ffadf0}
@media (prefers-color-scheme:dark){:root{--paper:#12110f;--sheet:#1d1b18;--ink:#f7f3ea;--soft:#cdc5b6;--rule:#4b463d;--link:#a6d2ff;
--fail:#7d0d1e;--unsure:#573200;--pass:#0c4727}}
*{box-sizing:border-box}
[hidden]{display:none!important}
body{margin:0;background:var(--paper);color:var(--ink);font:18px/1.4 system-ui,sans-serif;overflow-wrap:anywhere}
h1,h2,p,ul{margin:0}
ul{list-style:none;padding:0}
h2{font-size:1.1rem;font-weight:600}
a{color:var(--link)}
:focus-visible{outline:4px solid var(--link);outline-offset:2px}
.small{font-size:.9rem;font-weight:400;color:var(--soft)}
.mark{width:1em;height:1em;flex:none;fill:none;stroke:currentColor;stroke-width:2;stroke-linecap:round;stroke-linejoin:round}
.mark .full{fill:currentColor}
.mark .over{stroke:var(--sheet)}
.lost{position:sticky;top:0;z-index:1;margin:0;background:var(--fail);color:var(--on);padding:.6rem 1rem;font-weight:600}
main{display:grid;gap:1rem;padding-bottom:1rem}
.empty{padding:3rem 1rem;border:2px dashed var(--rule);color:var(--soft)}
select,button,.button{font:inherit;color:var(--ink);background:var(--sheet);border:2px solid var(--soft);border-radius:4px;min-height:3rem;padding:.3rem .8rem;text-decoration:none;cursor:pointer}
select{max-width:100%}
kbd{font:inherit;font-size:.85rem;font-weight:600;border:1px solid var(--soft);border-radius:3px;min-width:1.6em;padding:0 .3em;text-align:center;flex:none}
footer{padding:.8rem 1.2rem 1.2rem;border-top:1px solid var(--rule);font-size:.95rem;color:var(--soft)}
`
