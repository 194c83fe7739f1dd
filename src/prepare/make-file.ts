import type { PrepareSetting } from '../brand-spec/prepare-setting.ts'
import { jpegWith } from './containers/jpeg.ts'
import { encode } from './encode/encode.ts'
import type { Encoding } from './encode/encoded-at.ts'
import type { EncodeAsk } from './encode/trials.ts'
import type { Making } from './ledger/prepared.ts'
import { makeBlocks } from './metadata/make-blocks.ts'
import type { Master } from './pixels/decode.ts'
import { resampled } from './pixels/resample.ts'
import { targetSpace } from './pixels/target-space.ts'
import type { PlannedFile } from './planning/plan.ts'
import { sharpenedWithin } from './sharpening.ts'

/** A file as it is to be written, with what was done to make it. */
export interface MadeFile {
  readonly bytes: Buffer
  readonly making: Making
  /** Why it can't be as it is ordered; null when it is. */
  readonly problem: string | null
}

/** Quality where nothing limits the bytes: more shows nowhere. @choice common practice, no source. */
const QUALITY = 95

/** Least quality where the spec names none. @choice blocks begin to show in skin and backdrop below it; common practice, no source. */
const LEAST_QUALITY = 60

/** Formats that every save loses something in. */
const LOSSY: readonly string[] = ['jpeg', 'webp', 'avif']

/** Makes one file of a decoded master, as planned. */
export async function makeFile(
  planned: PlannedFile,
  master: Master,
  { tiff, sharpening }: PrepareSetting,
): Promise<MadeFile> {
  const { turnDeg, crop, size, tight, order, labels } = planned
  const { saving, format } = order
  const bits = saving.bitsPerChannel === 16 && (format === 'tiff' || format === 'png') ? 16 : 8
  const plain = resampled(master, crop, size, targetSpace(labels.colorSpace), bits)
  const done = sharpening ? sharpenedWithin(plain, planned, sharpening.halos) : null
  const picture = done?.picture ?? plain
  const encoding: Encoding = {
    format,
    subsampling: order.subsampling ?? '4:4:4',
    progressive: saving.progressive ?? false,
    tiff: tiff === 'zip' ? 'deflate' : (tiff ?? 'lzw'),
  }
  const ask = askOf(saving)
  const { bytes, quality, tooLarge } = await encode(picture, encoding, makeBlocks(labels), ask)
  const lossy = [planned.master.measured.format ?? '', format].filter((one) => LOSSY.includes(one))
  return {
    bytes,
    problem: tooLarge
      ? `Even at quality ${ask.quality.min} it has ${bytes.length} bytes, more than the ${ask.mostBytes} that the spec allows.`
      : null,
    making: {
      ...{ turnDeg, crop, ...size, tight, format, quality, bitsPerChannel: bits },
      scale: size.widthPx / crop.widthPx,
      colorSpace: labels.colorSpace,
      outOfGamutPct: master.isTabled ? null : 100 * picture.outOfGamut,
      generations: lossy.length,
      ...(done && { sharpening: done.sharpening }),
    },
  }
}

/** A JPEG that is as it is ordered, with the metadata that it is to have: its picture stays as it is, bit by bit. */
export function relabeled({ crop, size, order, labels, master }: PlannedFile, content: Buffer): MadeFile {
  return {
    bytes: jpegWith(content, makeBlocks(labels)),
    problem: null,
    making: {
      ...{ turnDeg: 0, crop, ...size, tight: false, format: order.format, bitsPerChannel: 8 },
      ...{ scale: 1, colorSpace: labels.colorSpace, outOfGamutPct: 0, generations: 1 },
      quality: master.measured.jpeg?.quality ?? null,
    },
  }
}

function askOf({ quality, bytes }: PlannedFile['order']['saving']): EncodeAsk {
  const mostBytes = bytes?.max ?? Infinity
  const min = quality?.min ?? LEAST_QUALITY
  const most = mostBytes < Infinity ? 100 : Math.max(QUALITY, min)
  return { quality: { min, max: Math.min(quality?.max ?? 100, most) }, mostBytes }
}
