/** Crops on masters: told apart by dashes and by name, not by color alone. */
export const MASTERS_STYLE = `
.box.crop-1{stroke:#0b6b3c;stroke-width:2.4;stroke-dasharray:10 4}.box.crop-2{stroke:#0a58ad;stroke-width:2.4}.box.crop-3{stroke:#9c1d8d;stroke-width:2.4;stroke-dasharray:3 3}.box.crop-4{stroke:#7a4a00;stroke-width:2.4;stroke-dasharray:14 3 3 3}.box.crop-5{stroke:#333;stroke-width:2.4;stroke-dasharray:6 6}
.open>li.pass{border-color:var(--pass)}.open>li.pass .rule{color:var(--pass)}
.open>li .rule svg:not(.mark){width:2rem;height:1rem;vertical-align:-.15rem}
@media screen and (prefers-color-scheme:dark){svg[aria-hidden] .crop-1{stroke:#8bdca8}svg[aria-hidden] .crop-2{stroke:#8cc4ff}svg[aria-hidden] .crop-3{stroke:#f09ae4}svg[aria-hidden] .crop-4{stroke:#e9b96e}svg[aria-hidden] .crop-5{stroke:#ddd}}
`
