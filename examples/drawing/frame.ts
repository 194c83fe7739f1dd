import type { Lab } from './color.ts'
import type { Look } from './look.ts'
import type { Moment } from './moment.ts'
import type { Catchlights, LensGlare } from './reflections.ts'

/**
 * Where the sitter comes to lie, in fractions of the frame height from the top edge (head width: of the frame width).
 * Crown means the top of the silhouette, hair and headwear included. Two of the measures fix the size; the rest follows.
 */
type Placement =
  | { readonly crownY: number; readonly chinY: number }
  | { readonly crownY: number; readonly eyeY: number }
  | { readonly eyeY: number; readonly headWidth: number }

/** Loss of backdrop light across the frame, even in stops. */
interface FallOff {
  readonly stops: number
  /** Direction the light falls off towards, degrees clockwise from the right of the frame; 45 is the lower right corner. */
  readonly towardsDeg: number
  /** Share of the way across that is still at full light, 0 to 0.9. */
  readonly from: number
}

export type Wall = 'paper' | 'bricks' | 'office' | 'stripes'

export interface Backdrop {
  /** A neutral sRGB code (0 to 255) or a CIELAB (D50) color. */
  readonly color: number | Lab
  readonly fallOff?: FallOff
  /** Loss in the corners, in stops. */
  readonly vignetteStops?: number
  /** Depth in stops of a soft shadow that the sitter casts beside the shoulder, away from the key light. */
  readonly castShadowStops?: number
  readonly wall?: Wall
  /** The backdrop ends before the frame does, and the wall beside it shows. */
  readonly end?: BackdropEnd
}

/** Where the backdrop ends, upright, as a share of the frame's width from that side; the wall beside it is darker. */
interface BackdropEnd {
  readonly side: 'left' | 'right'
  readonly share: number
  readonly wallStops: number
}

/** How the sitter is lit. */
export interface KeyLight {
  readonly side: 'left' | 'right'
  /** Brighter cheek over darker cheek, in stops; 0 is flat light. */
  readonly ratioStops: number
}

/** Somebody else in the picture: where their eyes are and how wide their head is, in fractions of the frame. */
interface SecondPerson {
  readonly look: Look
  readonly eyeX: number
  readonly eyeY: number
  readonly headWidth: number
}

/** How the picture is taken. */
export interface Frame {
  readonly widthPx: number
  readonly heightPx: number
  readonly placement: Placement
  /** Mid-eyes right of the frame's middle, as a fraction of the width; negative is left. */
  readonly offsetX?: number
  /** Head tilt in degrees, clockwise as seen. */
  readonly tiltDeg?: number
  readonly backdrop: Backdrop
  readonly key: KeyLight
  /** Standard deviation of the picture noise in codes, 0 to about 6. */
  readonly noise?: number
  /** Standard deviation of the fine light and dark of the skin, share of the light; none by default. */
  readonly skinTexture?: number
  /** Gaussian blur of the sitter in pixels, as if out of focus. */
  readonly defocusPx?: number
  /** Light reflected by the spectacle lenses; a white one on both unless told otherwise. */
  readonly lensGlare?: Partial<LensGlare>
  readonly catchlights?: Partial<Catchlights>
  readonly second?: SecondPerson
  /** Expression and turn of the head; at rest and straight to the camera by default. */
  readonly moment?: Partial<Moment>
}
