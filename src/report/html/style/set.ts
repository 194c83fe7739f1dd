/** What the page opens with: the facts at once, the filters, which stay in reach, and the set side by side. */
export const SET_STYLE = `
.at-once{display:grid;grid-template-columns:minmax(0,1fr) minmax(0,1fr);gap:.5rem 3rem;align-items:start}
.missed{margin:0}
.missed h2{font:600 .85rem/1.4 system-ui,sans-serif;color:var(--soft);margin:0}
.missed li{display:grid;grid-template-columns:minmax(0,13rem) 5.5rem minmax(1rem,1fr) 3.6rem;gap:0 .7rem;align-items:center;min-height:1.9rem}
.missed .count{text-align:right;font-variant-numeric:tabular-nums}
.missed li svg{display:block;width:100%;height:.5rem;fill:var(--fail)}
.missed .whole{fill:var(--rule)}
.missed .unsure{fill:var(--unsure)}
.missed em{grid-column:1/-1;margin:-.2rem 0 .2rem;color:var(--soft);font-style:normal;font-size:.9rem}
.missed button{font:inherit;font-size:.85rem;color:var(--link);background:none;border:1px solid var(--rule);border-radius:3px;min-height:1.6rem;padding:0 .5rem}
.missed details{margin:.2rem 0 0}
.filters{position:sticky;top:0;z-index:1;display:flex;flex-wrap:wrap;gap:.4rem .6rem;align-items:center;margin:1rem -1.25rem;padding:.5rem 1.25rem;background:var(--paper);border-bottom:1px solid var(--rule)}
.filters select,.filters input[type=search],.filters button{font:inherit;font-size:.9rem;color:var(--ink);background:var(--sheet);border:1px solid var(--soft);border-radius:3px;padding:.2rem .5rem;min-height:2.1rem;max-width:100%;width:100%}
.filters>label{flex:0 1 11rem;min-width:0}
.filters input::placeholder{color:var(--soft);opacity:1}
.filters button{width:auto}
.filters summary{min-height:2.1rem;line-height:2.1rem}
.filters output{margin-left:auto;font-size:.9rem;font-variant-numeric:tabular-nums}
.filters details{margin:0;flex:none}
.filters details[open]{flex-basis:100%}
.filters details label{display:inline-flex;align-items:center;gap:.5rem;margin:.3rem 1rem .3rem 0}
.filters details select{width:auto}
.filters input[type=checkbox]{width:1.5rem;height:1.5rem;margin:0}
.set{margin-top:1rem}
.strip{display:flex;flex-wrap:wrap;gap:.9rem 0}
.place{display:flex;flex-direction:column;color:inherit;text-decoration:none;font-size:.8rem;line-height:1.3}
.place.out{display:none}
.place .frame{display:block;position:relative}
.place .frame svg{display:block;height:var(--tall,11rem)}
.place path{vector-effect:non-scaling-stroke}
.place .mark path{vector-effect:none}
.place .told{position:absolute;left:0;right:0;bottom:0;display:grid;background:var(--sheet);font-weight:600;font-size:.72rem;line-height:1.25;padding:.1rem .25rem;overflow-wrap:normal}
.told .fail{color:var(--fail)}.told .unsure{color:var(--unsure)}.told .warning{color:var(--warning)}
.place .name{display:block;width:0;min-width:100%;padding:.2rem .4rem 0 .1rem}
.set .missing{color:var(--fail);margin-top:.5rem}
@media (max-width:44rem){.at-once{grid-template-columns:minmax(0,1fr)}.missed li{grid-template-columns:minmax(0,1fr) 5rem 3rem 3.6rem}.filters{margin:.8rem -.8rem;padding:.5rem .8rem}.filters>label{flex:1 1 8rem}.parts ul{font-size:.85rem;gap:.2rem .8rem}.place{--tall:9rem}html{scroll-padding-top:6.5rem}}
`
