import sharp from 'sharp'
import { mastersPage } from '../../../../src/report/html/masters/masters-page.ts'
import type { Place, ShownFile, ShownMaster } from '../../../../src/report/html/masters/shown-master.ts'
import { AT } from '../sample.ts'

const DELIVERABLES = ['print', 'web', 'badge', 'intranet', 'poster', 'card']

function box(left: number, top: number, width: number, height: number): Place[] {
  return [
    { x: left, y: top },
    { x: left + width, y: top },
    { x: left + width, y: top + height },
    { x: left, y: top + height },
  ]
}

function made(deliverable: string, index: number): ShownFile {
  return {
    ...{ state: index % 2 === 0 ? 'made' : 'kept', deliverable, file: `${deliverable}/Okafor-Ada_00124.jpg` },
    corners: box(0.05 + 0.02 * index, 0.03 * index, 0.8, 0.7),
    ...{ facts: ['1200 x 1500 px', 'quality 95'], reasons: [] },
  }
}

/** Two masters: one with a crop for each of six deliverables, one with all that can go wrong, in names that attack. */
export async function mastersSample(): Promise<string> {
  const jpeg = await sharp({ create: { width: 320, height: 400, channels: 3, background: '#8899aa' } })
    .jpeg()
    .toBuffer()
  const attack = '<script>globalThis.ran = 1</script>'
  const none = { file: null, corners: [], facts: [] }
  const masters: ShownMaster[] = [
    {
      ...{ file: '00124.tif', size: { widthPx: 1600, heightPx: 2000 } },
      picture: { widthPx: 320, heightPx: 400, jpeg },
      files: DELIVERABLES.map(made),
    },
    {
      ...{ file: `${attack}.tif`, size: null, picture: null },
      files: [
        { ...made('print', 0), state: 'held-back', corners: [], reasons: [`headroom: ${attack}`] },
        { ...none, state: 'refused', deliverable: 'web', reasons: ['It could not be read as a picture.'] },
        { ...none, state: 'question', deliverable: null, reasons: [`Who is in "${attack}"?`] },
      ],
    },
  ]
  const summary = '6 files delivered (3 made now), 1 held back and 2 not made.'
  return mastersPage(masters, {
    ...{ spec: { brand: attack, version: 1 }, deliverables: DELIVERABLES, summary, at: AT },
  })
}
