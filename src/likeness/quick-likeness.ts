import { byteCorrelation } from './grid-likeness.ts'
import type { BothWays, ReadySignature } from './ready-signature.ts'

/*
 * What tells pairs apart without laying one on the other, which takes a hundred times as long. The limits leave a margin
 * below all copies that were found: 25 photographs and drawn sitters, each saved at JPEG quality 50, at 25 % of its size,
 * cropped by 10 % and mirrored.
 */

/** Largest difference in tone of two copies, codes. @tuned on drawn sitters and 25 photographs, each with four copies */
const MOST_TONES = 14
/** Least correlation of two copies' faces before they are aligned. @tuned on drawn sitters and 25 photographs, each with four copies */
const LEAST_FACE = 0.75
/**
 * Least correlation of two copies' heads.
 * @tuned on drawn sitters and 25 photographs, each with four copies: 0.94 or more; of people whose faces come close, 0.69
 *   at most
 */
const LEAST_HEAD = 0.9

/** Whether two frames are about as dark and as light: else they are not compared by their frames. */
export function tonesAgree(a: ReadySignature, b: ReadySignature): boolean {
  return toneDistance(a, b) <= MOST_TONES
}

/** Whether two faces may be one, judged before they are aligned; if not, aligning is spared. */
export function facesMayAgree(a: ReadySignature, b: ReadySignature): boolean {
  if (!headsAgree(a, b, 'plain') && !headsAgree(a, b, 'mirror')) return false
  return a.face !== null && b.face !== null && eitherWay(a.face, b.face) >= LEAST_FACE
}

export function headsAgree(a: ReadySignature, b: ReadySignature, way: keyof BothWays): boolean {
  return a.head !== null && b.head !== null && byteCorrelation(a.head.plain, b.head[way]) >= LEAST_HEAD
}

/** The higher correlation of plain and mirrored. */
export function eitherWay(a: BothWays, b: BothWays): number {
  return Math.max(byteCorrelation(a.plain, b.plain), byteCorrelation(a.plain, b.mirror))
}

/**
 * The earth mover's distance of two distributions of luma, codes: the mean difference of their quantiles. Small for copies,
 * also for mirrored ones and those cropped a little.
 */
function toneDistance({ tones: p }: ReadySignature, { tones: q }: ReadySignature): number {
  let sum = 0
  for (let i = 0; i < p.length; i++) sum += Math.abs((p[i] as number) - (q[i] as number))
  return sum / p.length
}
