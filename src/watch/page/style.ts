/**
 * The look of a session's pages. What the photographer needs while shooting is as large as the window allows: capitals of 15 mm
 * are read at 3 m (a two-hundredth of the distance; common practice, no source), which is a font of some 80 px on most screens.
 */
export const STYLE = `
.line h1{display:flex;gap:.35em;align-items:flex-start;min-height:2.5em;padding:.2em .4em;font-size:clamp(2.2rem,5.4vw,6.5rem);line-height:1.12;font-weight:700;color:var(--on);overflow-wrap:normal;text-wrap:balance}
.line h1.pass{background:var(--pass)}.line h1.fail{background:var(--fail)}.line h1.unsure{background:var(--unsure)}
.line h1 .mark{margin-top:.06em;stroke-width:2.6}
.others{font-size:clamp(1rem,1.5vw,1.5rem);display:grid;gap:.4rem;margin:.6rem 0}
.file{font-weight:600}
.others li::before{content:'\\2013\\00a0'}
.stage{display:grid;grid-template:'last now' auto 'last people' 1fr / minmax(0,1fr) minmax(18rem,28rem);gap:1rem 1.2rem;padding:0 1.2rem}
.last{grid-area:last;display:flex;flex-wrap:wrap;gap:1rem;align-content:flex-start}
.about{flex:1 1 14rem;min-width:0}
.now{grid-area:now}.people{grid-area:people}
.picture{display:block;width:auto;max-width:100%;height:min(64vh,60rem);background:var(--sheet);border:1px solid var(--rule)}
.blank{fill:var(--rule)}
.picture .halo,.picture .crop{fill:none;vector-effect:non-scaling-stroke}
.picture .halo{stroke:#000;stroke-width:7px;opacity:.75}
.picture .crop{stroke-width:3px}
.crop-0{stroke:var(--one)}.crop-1{stroke:var(--two);stroke-dasharray:14 7}.crop-2{stroke:var(--three);stroke-dasharray:4 6}
.picture text{fill:#fff;stroke:#000;stroke-width:.22em;paint-order:stroke;font-weight:700}
.whose{margin-top:.5rem}
.now .name{font-size:clamp(1.6rem,2.6vw,2.6rem);line-height:1.15;font-weight:700}
.doings{display:grid;gap:.5rem;margin-top:.6rem}
.doings button,.doings .button{display:flex;gap:.6rem;align-items:center;text-align:left;width:100%}
.people ul{display:grid;gap:.3rem;margin-top:.4rem;max-height:60vh;overflow:auto;padding:4px}
.people button{display:grid;grid-template-columns:1.5rem 1fr;gap:0 .6rem;width:100%;text-align:left;align-items:center;border-color:var(--rule)}
.people button[aria-pressed=true]{border-color:var(--ink);border-width:4px}
.people .mark{width:1.4rem;height:1.4rem;grid-row:span 2}
.who{font-weight:600}
.how{font-size:.85rem;color:var(--soft)}
.drift,.notes{padding:0 1.2rem}
.drifted{font-size:clamp(1.3rem,2.6vw,3rem);line-height:1.2;font-weight:700;padding:.4rem 1.2rem 0}
.drifted li,.notes li{font-weight:600;border-left:6px solid var(--unsure);padding-left:.7rem;margin:.3rem 0}
.plots{display:grid;grid-template-columns:repeat(auto-fill,minmax(12rem,1fr));gap:.6rem 1.2rem;margin-top:.4rem}
.plot{margin:0}
.plot svg{display:block;width:100%;background:var(--sheet);border:1px solid var(--rule)}
.plot path{stroke:var(--soft);stroke-width:1}
.plot circle{fill:var(--soft)}
.plot .since{fill:none;stroke:var(--ink);stroke-width:2}
.picking{padding:1rem 1.2rem;min-height:92vh}
.picking header{display:flex;flex-wrap:wrap;gap:.2rem 1.5rem;align-items:center}
.picking h1{font-size:clamp(1.8rem,3.4vw,3.4rem);line-height:1.2}
.said{font-size:clamp(1.2rem,2vw,2rem);flex:1 1 14rem}
.back{display:inline-flex;gap:.6rem;align-items:center}
.choices{display:grid;gap:1rem;margin-top:1rem;grid-template-columns:repeat(var(--across,3),minmax(0,1fr))}
.many-1{--across:1}.many-2{--across:2}.many-4{--across:4}.many-7,.many-8{--across:4}
.choices button{display:block;width:100%;padding:.5rem;text-align:center;border:4px solid var(--rule)}
.choices button[aria-pressed=true]{border-color:var(--ink);background:var(--ink);color:var(--paper)}
.choice{display:block;width:100%;max-height:calc(86vh / var(--down,1))}
.many-5,.many-6,.many-7,.many-8{--down:2.4}.many-9{--down:3.6}.many-1,.many-2,.many-3,.many-4{--down:1.15}
.number{display:block;font-size:clamp(1.4rem,2.2vw,2.2rem);font-weight:700;line-height:1.3}
@media (max-width:60rem){.stage{grid-template:'now' auto 'last' auto 'people' auto / minmax(0,1fr)}.picture{height:auto;width:100%;max-height:60vh}.people ul{max-height:none}.people ul,.doings{grid-template-columns:repeat(auto-fill,minmax(15rem,1fr))}.many-3,.many-4,.many-7,.many-8{--across:2}}
@media (max-width:60rem) and (orientation:portrait){.many-5,.many-6{--across:2;--down:3.6}}
@media (max-width:36rem){.many-5,.many-6,.many-9{--across:2}}
`
