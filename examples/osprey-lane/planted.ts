import { SITTERS, type Sitter } from '../drawing/sitters.ts'
import { PAPER } from './house-style.ts'
import type { Planted } from './spoiling.ts'

const COLLEAGUE = lookOf('Pham')

function lookOf(family: string): Sitter['look'] {
  const found = SITTERS.find((sitter) => sitter.family === family)
  if (found === undefined) throw new Error(`No sitter of the family name ${family}.`)
  return found.look
}

export const PLANTED: readonly Planted[] = [
  {
    family: 'Adeyemi',
    deliverable: 'print',
    fault:
      'Cropped tight: the crown is 1.5 % under the top edge; and an eye was replaced by one from a flipped frame.',
    rules: ['headroom', 'eyes-match'],
    picture: { placement: { crownY: 0.015, eyeY: 0.346 } },
    output: { retouch: { eyeReplaced: 'right' } },
  },
  {
    family: 'Bergström',
    deliverable: 'print',
    fault:
      'The backdrop is gray, L* 88, as if its lights were set a third of a stop too low; and the retouch smoothed the skin until it looks like plastic.',
    rules: ['background-lightness', 'skin-texture'],
    picture: { backdrop: { ...PAPER, color: { L: 88.3, a: 0, b: 0 } } },
    output: { retouch: { smoothed: true } },
  },
  {
    family: 'Castellanos',
    deliverable: 'print',
    fault:
      'Cropped to 3:4, 1200 x 1600 px; nothing describes the picture to those who can not see it; and the mask that cut her out left a dark fringe and a hole in the cloth.',
    rules: ['aspect-ratio', 'pixel-size', 'metadata-required', 'cutout-fringe', 'cutout-holes'],
    saving: 'undescribed',
    picture: { heightPx: 1600 },
    output: {
      heightPx: 1600,
      crop: { left: 100, top: 0, width: 1200, height: 1600 },
      retouch: { fringe: [10, 12, 16], hole: { x: 0.47, y: 0.93, width: 0.03 } },
    },
  },
  {
    family: 'Dhillon',
    deliverable: 'print',
    fault:
      'Saved at 72 ppi, the setting of the web files, and with the place where it was taken; and a mask left a blue cast on skin.',
    rules: ['resolution', 'metadata-forbidden', 'skin-cast'],
    output: { ppi: 72, retouch: { cast: [0.82, 0.96, 1.5] } },
    saving: 'located',
  },
  {
    family: 'Eriksen',
    deliverable: 'print',
    fault:
      'Saved at JPEG quality 60 with 4:2:0 color; and the editor left a thumbnail of the frame before the crop.',
    rules: ['compression', 'stale-preview'],
    saving: 'previewed',
    output: { quality: 60, subsampling: '4:2:0' },
  },
  {
    family: 'Farouk',
    deliverable: 'print',
    fault:
      'The backdrop light on the right failed: two thirds of a stop lost towards that side; and the retouch lightened the forehead until it burnt out.',
    rules: ['background-unevenness', 'clipping'],
    output: { retouch: { burntOut: { x: 0.5, y: 0.282, width: 0.17 } } },
    picture: {
      backdrop: { color: { L: 97, a: 0, b: 0 }, fallOff: { stops: 2 / 3, towardsDeg: 0, from: 0.5 } },
    },
  },
  {
    family: 'Grieve',
    deliverable: 'print',
    fault: 'Stored on its side, with an Exif note to turn it (orientation 6); and the eyes are out of focus.',
    rules: ['orientation', 'eye-focus'],
    picture: { defocusPx: 3 },
    saving: 'sideways',
  },
  {
    family: 'Haile',
    deliverable: 'print',
    fault:
      'The head is tilted by 6 degrees, as the sitter wished, which a waiver lets through; and the key light stood on the other side.',
    rules: ['tilt', 'key-side'],
    waived: ['tilt'],
    picture: { tiltDeg: 6, key: { side: 'right', ratioStops: 0.6 } },
  },
  {
    family: 'Ikeda',
    deliverable: 'print',
    fault:
      'Saved in Adobe RGB (1998), not sRGB; and a light is reflected by the spectacles, behind which neither sharpness nor irises nor the line of the eyes can be told.',
    rules: ['color-space', 'lens-glare', 'eye-focus', 'sharpening-halo', 'eyes-match', 'tilt'],
    picture: { lensGlare: { share: 0.4 } },
    saving: 'adobe-rgb',
  },
  {
    family: 'Lund',
    deliverable: 'print',
    fault: 'A colleague looks into the frame; and it was sharpened far too much.',
    rules: ['one-face', 'eye-focus', 'sharpening-halo'],
    output: { retouch: { sharpened: true } },
    picture: { second: { look: COLLEAGUE, eyeX: 0.8, eyeY: 0.46, headWidth: 0.17 } },
  },
  {
    family: 'Mokoena',
    deliverable: 'print',
    fault:
      'Shot too wide: the head is much too small in the frame; and enlarged by half from a file of 800 x 1000 px.',
    rules: ['head-height', 'enlarged'],
    output: { retouch: { enlargedFrom: 2 / 3 } },
    picture: { placement: { crownY: 0.11, eyeY: 0.343 } },
  },
  {
    family: 'Adeyemi',
    deliverable: 'web',
    fault:
      'The staff id in the name has four digits; and the paper ends before the frame does: a strip of wall shows on the right, 3.5 L* darker.',
    rules: ['file-name', 'backdrop-edge'],
    picture: { backdrop: { ...PAPER, end: { side: 'right', share: 0.075, wallStops: 0.135 } } },
    staffId: '0418',
  },
  {
    family: 'Bergström',
    deliverable: 'web',
    fault: 'A PNG that is named .jpg.',
    rules: ['file-format'],
    saving: 'png',
  },
  {
    family: 'Castellanos',
    deliverable: 'web',
    fault:
      'Delivered at 500 x 500 px; flipped, so that the light comes from the other side; and put before the office in place of the paper.',
    rules: ['pixel-size', 'key-side', 'background-plain'],
    picture: { backdrop: { ...PAPER, wall: 'office' } },
    output: { widthPx: 500, heightPx: 500, retouch: { flipped: true } },
  },
  {
    family: 'Dhillon',
    deliverable: 'web',
    fault:
      'Straightened by 1.2 degrees and not cropped: the corners are white; and of another frame, in which the head is turned far to the side.',
    rules: ['backdrop-edge', 'facing'],
    output: { turnedDeg: 1.2 },
  },
  {
    family: 'Eriksen',
    deliverable: 'web',
    fault: 'The backdrop has a warm cast, chroma 6.',
    rules: ['background-tint'],
    picture: { backdrop: { ...PAPER, color: { L: 96.4, a: 1.2, b: 5.9 } } },
  },
  {
    family: 'Farouk',
    deliverable: 'web',
    fault: 'The upload broke off: only 60 % of the file arrived.',
    rules: ['intact'],
    saving: 'truncated',
  },
  {
    family: 'Haile',
    deliverable: 'web',
    fault: 'Saved in CMYK for a printing press, with no profile; the inks clip the shadows on the nose.',
    rules: ['color-space', 'clipping'],
    // The way to ink and back costs two steps of L*; a lighter paper keeps them from being a second fault.
    picture: { backdrop: { ...PAPER, color: { L: 98.2, a: 0, b: 0 } } },
    saving: 'cmyk',
  },
  {
    family: 'Ikeda',
    deliverable: 'web',
    fault:
      'The sitter is 8 % off the middle of the frame; and the light is reflected here too, which hides the line of the eyes.',
    rules: ['centering', 'lens-glare', 'tilt'],
    picture: { offsetX: (0.08 * 1320) / 1400, lensGlare: { share: 0.4 } },
  },
]
