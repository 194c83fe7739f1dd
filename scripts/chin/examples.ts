import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { ACCURACY_SET } from '../../examples/drawing/accuracy-set.ts'
import type { Frame } from '../../examples/drawing/frame.ts'
import type { Look } from '../../examples/drawing/look.ts'
import { drawPortrait } from '../../examples/drawing/portrait.ts'
import { measureFace } from '../../src/measure/face/face.ts'
import { placeOnFace } from '../../src/measure/face/face-axes.ts'
import { findFaces } from '../../src/measure/face/find-faces.ts'
import { loadFaceModel } from '../../src/measure/face/networks/face-model.ts'
import { decodePicture } from '../../src/measure/file/decode.ts'
import type { DecodedPicture } from '../../src/measure/file/decoded-picture.ts'
import { FACE_LONG_EDGE_PX } from '../../src/measure/file/picture-parts.ts'
import { copyOf, partsOf } from '../../src/measure/file/working-copy.ts'
import { chinEvidence } from '../../src/measure/head/chin-evidence.ts'
import { chinSlopes } from '../../src/measure/head/chin-slopes.ts'
import { GROUP_CASES, wearing } from '../../tests/accuracy/group-cases.ts'
import { readMarks } from '../../tests/accuracy/marked-folder.ts'
import { CHIN_MARKS } from '../../tests/outside/chin-marks.ts'
import { packageFolder } from '../../tests/outside/portraits.ts'

/** A portrait whose chin is known. */
export interface ChinExample {
  readonly set: 'marked folder' | 'photographs of packages' | 'drawn sitters'
  /** Portraits of one sitter are never both learned from and tested on. */
  readonly sitter: string
  readonly name: string
  readonly evidence: readonly (readonly number[])[]
  /** Cells from the likeliest place down to the chin. */
  readonly truth: number
  /** Of the frame height, along one cell. */
  readonly percent: number
}

const MOST_PIXELS = 1e8

/** Drawn portraits in frames like those of deliveries. */
export async function drawnExamples(): Promise<ChinExample[]> {
  const cases: { name: string; look: Look; frame: Frame }[] = [
    ...ACCURACY_SET,
    ...GROUP_CASES.map((one) => ({ name: one.name, look: wearing(one, 'good'), frame: one.good })),
  ]
  const examples: ChinExample[] = []
  for (const { name, look, frame } of cases) {
    const { pixels, widthPx, heightPx, truth } = await drawPortrait(look, frame)
    const picture = { data: pixels, width: widthPx, height: heightPx, transparentShare: 0 }
    const sitter = name.split(',')[0] ?? name
    examples.push(
      await example('drawn sitters', sitter, name, picture, [
        truth.chin.x * widthPx,
        truth.chin.y * heightPx,
      ]),
    )
  }
  return examples
}

/** Photographs of npm packages, faces turned 20 degrees at most. */
export async function packageExamples(): Promise<ChinExample[]> {
  const examples: ChinExample[] = []
  for (const { source, path, chin } of CHIN_MARKS) {
    const content = await readFile(join(await packageFolder(source), path))
    const picture = await decodePicture(content, MOST_PIXELS)
    const place = [(chin[0] / 100) * picture.width, (chin[1] / 100) * picture.height] as const
    examples.push(await example('photographs of packages', path, path, picture, place))
  }
  return examples
}

/** Photographs of a folder with `marks.json`, each of another sitter. */
export async function folderExamples(folder: string): Promise<ChinExample[]> {
  const examples: ChinExample[] = []
  for (const { file, chin } of await readMarks(folder)) {
    const picture = await decodePicture(await readFile(join(folder, file)), MOST_PIXELS)
    examples.push(await example('marked folder', file, file, picture, chin))
  }
  return examples
}

async function example(
  set: ChinExample['set'],
  sitter: string,
  name: string,
  picture: DecodedPicture,
  [x, y]: readonly [x: number, y: number],
): Promise<ChinExample> {
  const copy = copyOf(picture, FACE_LONG_EDGE_PX)
  const scale = picture.width / copy.width
  const faces = await findFaces(await loadFaceModel(), copy, partsOf(picture, [FACE_LONG_EDGE_PX]))
  const { landmarks } = measureFace(faces, copy.width, copy.height, scale)
  if (!faces || !landmarks) throw new Error(`${name}: no face was found.`)
  const { cell, likely, slopes } = chinSlopes(copy, faces.largest, landmarks)
  const { along } = placeOnFace(landmarks, { x: x / scale, y: y / scale })
  return {
    set,
    sitter,
    name,
    evidence: chinEvidence(slopes),
    truth: (along - likely) / cell,
    percent: (100 * cell * landmarks.axis.y) / copy.height,
  }
}
