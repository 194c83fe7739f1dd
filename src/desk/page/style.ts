/** The look of the desk: a column to read, and one thing after the other to do. */
export const STYLE = `
main,footer{max-width:60rem;margin:0 auto;padding:1rem 1.2rem}
main>*{min-width:0}
main>section:empty{display:none}
h1{font-size:1.9rem;line-height:1.2}
h2{font-size:1.25rem;margin-bottom:.3rem}
h3{font-size:1rem;font-weight:600;margin:.4rem 0 .2rem}
section p,section ul,section ol{margin:.5rem 0}
.part{border-top:1px solid var(--rule);padding-top:.8rem}
.places{display:flex;flex-wrap:wrap;gap:.4rem;max-height:40vh;overflow:auto;padding:4px}
.spec,.main{border-color:var(--ink);border-width:3px}
.drop{border:3px dashed var(--soft);background:var(--sheet);padding:1.2rem}
.choose{display:flex;flex-wrap:wrap;gap:.6rem}
.choose label{position:relative;overflow:hidden}
.choose label:focus-within{outline:4px solid var(--link);outline-offset:2px}
.choose input{position:absolute;inset:0;opacity:0;cursor:pointer}
.copying:empty{display:none}
.deliveries ul{display:grid;gap:.3rem}
.deliveries button{width:100%;text-align:left}
.deliveries button[aria-pressed=true]{border-color:var(--ink);border-width:4px}
.notes li{border-left:6px solid var(--unsure);padding-left:.7rem}
progress{width:100%;height:1.4rem;accent-color:var(--link)}
.outcome{display:flex;gap:.5rem;align-items:flex-start;padding:.6rem .8rem;font-size:1.25rem;font-weight:700;line-height:1.25;color:var(--on)}
.outcome .mark{margin-top:.12em;stroke-width:2.6}
.outcome.pass{background:var(--pass)}.outcome.fail{background:var(--fail)}.outcome.unsure{background:var(--unsure)}
.head{display:flex;flex-wrap:wrap;gap:.4rem 1rem;align-items:center;justify-content:space-between}
.button{display:inline-flex;align-items:center}
.told li,.files>li{border-top:1px solid var(--rule);padding:.3rem 0}
.files ul{padding-left:1rem}
.word{font-weight:700}
.word::after{content:','}
.fix{display:block;color:var(--soft)}
.questions{padding-left:1.4rem;display:grid;gap:.6rem}
fieldset{border:1px solid var(--rule);background:var(--sheet);margin:0;padding:.4rem .9rem .6rem;min-width:0}
.answers{display:flex;flex-wrap:wrap;gap:.4rem 1.6rem}
.answers label{display:inline-flex;gap:.5rem;align-items:center;min-height:2.6rem;font-weight:600}
input[type=radio]{width:1.3rem;height:1.3rem;accent-color:var(--link)}
.wide{overflow:auto}
table{border-collapse:collapse;min-width:100%}
th,td{text-align:left;vertical-align:top;border-top:1px solid var(--rule);padding:.3rem .8rem .3rem 0}
form p{display:grid;gap:.2rem;max-width:34rem}
form label{font-weight:600}
input[type=text],textarea{font:inherit;color:var(--ink);background:var(--sheet);border:2px solid var(--soft);border-radius:4px;padding:.4rem .6rem;width:100%}
form .decide{display:flex;flex-wrap:wrap;gap:.6rem}
button:disabled{color:var(--soft);border-style:dashed;cursor:default}
.wrong{border-left:6px solid var(--fail);padding-left:.7rem}
pre{white-space:pre-wrap;font-size:.9rem;margin:.3rem 0}
footer{display:flex;flex-wrap:wrap;gap:.6rem 2rem;align-items:center;justify-content:space-between}
`
