import sharp from 'sharp'
import { backdropLight } from './backdrop.ts'
import { castShadow } from './cast-shadow.ts'
import { composed } from './composing.ts'
import { HALF_PUPIL_DISTANCE } from './eyes.ts'
import type { Frame } from './frame.ts'
import type { Look } from './look.ts'
import { placed } from './placing.ts'
import { NO_GLARE, PLAIN_GLARE, type Reflections } from './reflections.ts'
import { type Stand, sitterSvg } from './sitter-svg.ts'
import { skinTexture } from './skin-texture.ts'
import { crownRow, type FramePoint, type Truth } from './truth.ts'

export interface Portrait {
  readonly widthPx: number
  readonly heightPx: number
  /** sRGB, 8 bits, three bytes a pixel, rows from the top. */
  readonly pixels: Buffer
  readonly truth: Truth
}

/** Draws a sitter as the frame asks. The same look and frame give the same bytes. */
export async function drawPortrait(look: Look, frame: Frame): Promise<Portrait> {
  const { widthPx, heightPx, key } = frame
  const keySign = key.side === 'left' ? -1 : 1
  const stand = await placed(look, frame)
  const defocus = frame.defocusPx ?? 0
  const sitter = await rendered(
    sitterSvg(look, keySign, reflectionsOf(frame), stand, widthPx, heightPx, frame.moment),
    defocus,
  )
  const second = frame.second
  const other =
    second &&
    (await rendered(
      sitterSvg(
        second.look,
        keySign,
        NO_GLARE,
        {
          x: second.eyeX * widthPx,
          y: second.eyeY * heightPx,
          scale: (second.headWidth * widthPx) / second.look.proportions.headBreadth,
          tiltDeg: 0,
        },
        widthPx,
        heightPx,
      ),
      defocus,
    ))
  const shadow = await castShadow(sitter, frame, stand.scale)
  const { pixels, counted } = composed({
    widthPx,
    heightPx,
    light: backdropLight(frame.backdrop, widthPx / heightPx),
    people: other === undefined ? [sitter] : [other, sitter],
    shadow,
    noise: frame.noise ?? 0,
    seed: look.seed,
    texture: skinTexture(frame.skinTexture ?? 0, look, stand),
    keyLight: {
      sign: keySign,
      ratioStops: key.ratioStops,
      stand,
      halfBreadth: look.proportions.headBreadth / 2,
    },
  })
  const faceWidth = look.proportions.headBreadth * stand.scale
  const crown = crownRow(sitter, 4, widthPx, heightPx, [stand.x - faceWidth, stand.x + faceWidth], faceWidth)
  return {
    widthPx,
    heightPx,
    pixels,
    truth: {
      crownY: (crown ?? 0) / heightPx,
      ...landmarks(look, stand, widthPx, heightPx),
      headWidth: faceWidth / widthPx,
      eyeDistancePx: 2 * HALF_PUPIL_DISTANCE * stand.scale,
      tiltDeg: stand.tiltDeg,
      backdropL: counted.percentile(0.5),
      backdropUnevennessL: counted.percentile(0.95) - counted.percentile(0.05),
      keySide: key.side,
      keyRatioStops: key.ratioStops,
      faces: second === undefined ? 1 : 2,
    },
  }
}

function reflectionsOf({ lensGlare, catchlights }: Frame): Reflections {
  return {
    lensGlare: lensGlare === undefined ? null : { ...PLAIN_GLARE, ...lensGlare },
    catchlights: { ...NO_GLARE.catchlights, ...catchlights },
  }
}

/** Straight RGBA of an SVG. */
async function rendered(svg: string, defocusPx: number): Promise<Buffer> {
  const image = sharp(Buffer.from(svg), { limitInputPixels: false }).ensureAlpha()
  return (defocusPx >= 0.3 ? image.blur(defocusPx) : image).raw().toBuffer()
}

function landmarks(
  look: Look,
  stand: Stand,
  widthPx: number,
  heightPx: number,
): Pick<Truth, 'leftEye' | 'rightEye' | 'chin' | 'headCenterX'> {
  const turn = (stand.tiltDeg * Math.PI) / 180
  const at = (x: number, y: number): FramePoint => ({
    x: (stand.x + (x * Math.cos(turn) - y * Math.sin(turn)) * stand.scale) / widthPx,
    y: (stand.y + (x * Math.sin(turn) + y * Math.cos(turn)) * stand.scale) / heightPx,
  })
  return {
    leftEye: at(-HALF_PUPIL_DISTANCE, 0),
    rightEye: at(HALF_PUPIL_DISTANCE, 0),
    chin: at(0, look.proportions.chinBelowEyes),
    headCenterX: stand.x / widthPx,
  }
}
