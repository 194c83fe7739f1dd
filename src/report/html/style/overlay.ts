/**
 * Lines on pictures: each on a light halo, so that it shows on any skin, hair and backdrop; told apart by dashes and by
 * name, not by color alone.
 */
export const OVERLAY_STYLE = `
.portrait{display:block;width:100%;background:var(--paper)}
.blank{fill:var(--paper);stroke:var(--rule)}
.blank-line{stroke:var(--rule);fill:none}
.halo{fill:none;stroke:#fff;stroke-opacity:.75;stroke-width:3.6}
.line,.box{fill:none;stroke-width:1.6}
.line.crown{stroke:#9c1d8d}.line.eyes{stroke:#0a58ad}.line.chin{stroke:#7a4a00;stroke-dasharray:2 3}.line.middle{stroke:#0a58ad;stroke-width:2.4}
.line.set-eyes{stroke:#0b6b3c;stroke-dasharray:7 3}
.box.face{stroke:#333;stroke-dasharray:4 4}.box.other-face{stroke:#a3142b}.box.glare,.box.intrusion{stroke:#b3261e;stroke-width:2}.box.intrusion{stroke-dasharray:3 3}.box.crop{stroke:#0b6b3c;stroke-width:2.4;stroke-dasharray:10 4}
.gauge{fill:#12a150;stroke:#fff;stroke-width:1;fill-opacity:.85}
.overlay text{font:600 11px system-ui,sans-serif;fill:#111;stroke:#fff;stroke-width:3px;paint-order:stroke;stroke-linejoin:round}
.plain .overlay{display:none}
.place .eyes{stroke-width:2.6}
@media screen and (prefers-color-scheme:dark){.legend .line.crown{stroke:#f09ae4}.legend .line.eyes,.legend .line.middle{stroke:#8cc4ff}.legend .line.chin{stroke:#e9b96e}.legend .box.face{stroke:#ddd}.legend .box.intrusion{stroke:#ff9ba6}.legend .box.crop{stroke:#8bdca8}}
`
