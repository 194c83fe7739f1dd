import type { Blocks } from '../containers/blocks.ts'
import { iccProfile } from '../pixels/icc-profile.ts'
import { exifBlock, exifEntries, mainEntries } from './exif.ts'
import { iimDatasets } from './iim.ts'
import type { Labels } from './labels.ts'
import { xmpPacket } from './xmp.ts'

/** What a file says of itself, in every form that its container has a place for. */
export function makeBlocks(labels: Labels): Blocks {
  return {
    icc: iccProfile(labels.colorSpace),
    exif: exifBlock(labels),
    entries: { main: mainEntries(labels), exif: exifEntries(labels) },
    xmp: xmpPacket(labels),
    iim: iimDatasets(labels),
    ppi: labels.ppi,
  }
}
