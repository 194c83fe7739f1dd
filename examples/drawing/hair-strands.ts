import { mix } from './color.ts'
import { along, mm, type Point, resampled, smooth } from './path.ts'
import { blurred, crisp, curve, fill, line, type Scene, strandColor } from './scene.ts'

/**
 * A lock of hair: guide strands side by side, each from root to tip. Hairs lie between neighboring guides.
 * `wave` is the sideways swing in mm that grows towards the tips.
 */
export interface Lock {
  readonly guides: readonly (readonly Point[])[]
  readonly hairs: number
  readonly wave?: number
  /** How much of a hair is drawn: 1 from root to tip; small values give cropped hair. */
  readonly length?: number
  /** Share of the way from root to tip where light lies across the lock. */
  readonly sheenAt?: number
  /** Thin enough that skin shows between the hairs. */
  readonly airy?: boolean
  /** In the shadow of the head. */
  readonly shaded?: boolean
}

/** Locks of a straight or wavy style: what hangs behind the neck, and what lies over the head. */
export interface Locks {
  readonly behind: readonly Lock[]
  readonly over: readonly Lock[]
  /** Right half of the silhouette, crown to ear: where fly-aways grow. */
  readonly silhouette: readonly Point[]
}

const STEPS = 10

export function drawLock(scene: Scene, lock: Lock): string {
  const guides = lock.guides.map((guide, index) => swung(resampled(guide, STEPS), lock.wave ?? 0, index))
  const { palette } = scene
  const mass = outline(guides)
  return [
    lock.airy === true
      ? airyMass(scene, guides)
      : blurred(0.5, fill(mass, lock.shaded === true ? palette.hairDark : palette.hair)),
    hairs(scene, lock, guides),
    depthAlong(scene, guides),
    lock.sheenAt === undefined ? '' : sheen(scene, guides, lock.sheenAt),
  ].join('')
}

/** Waves swing whole locks, more towards the tips. */
function swung(guide: readonly Point[], wave: number, phase: number): Point[] {
  return guide.map(
    ([x, y], step): Point => [x + wave * (step / STEPS) * Math.sin(step * 1.9 + phase * 0.5), y],
  )
}

function outline(guides: readonly (readonly Point[])[]): string {
  const first = guides[0] ?? []
  const last = [...(guides[guides.length - 1] ?? [])].reverse()
  const tips = guides.map((guide) => guide[guide.length - 1] ?? [0, 0])
  const roots = guides.map((guide) => guide[0] ?? [0, 0]).reverse()
  return `${smooth(first)}${[tips, last, roots].map((run) => smooth(run as Point[]).replace('M', 'L')).join('')}Z`
}

/** A guide strand in between: `share` 0 is the first guide, 1 the last. */
function between(guides: readonly (readonly Point[])[], share: number): Point[] {
  return Array.from({ length: STEPS }, (_, step) =>
    along(
      guides.map((guide): Point => guide[step] ?? [0, 0]),
      share,
    ),
  )
}

function hairs(scene: Scene, lock: Lock, guides: readonly (readonly Point[])[]): string {
  const { random } = scene
  const length = lock.length ?? 1
  return Array.from({ length: lock.hairs }, () => {
    const share = random.next()
    const strand = between(guides, share)
    const start = length < 1 ? random.between(0, 1 - length) : random.between(0, 0.12)
    const end = length < 1 ? start + length : random.between(0.84, 1.05)
    const drift = random.between(-1.6, 1.6)
    const points = Array.from(
      { length: length < 1 ? 3 : STEPS },
      (_, step, all = length < 1 ? 3 : STEPS): Point => {
        const at = start + ((end - start) * step) / (all - 1)
        const [x, y] = along(strand, at)
        return [x + drift * at, y]
      },
    )
    return crisp(
      line(
        smooth(points),
        strandColor(scene.palette, random),
        random.between(0.35, 1.1),
        random.between(0.25, 0.7),
      ),
    )
  }).join('')
}

/** Thin hair darkens the skin softly instead of covering it. */
function airyMass({ palette }: Scene, guides: readonly (readonly Point[])[]): string {
  return blurred(2, ...guides.map((guide) => line(smooth(guide), palette.hair, 4, 0.6)))
}

/** Hair is darker at its roots and where it turns away. */
function depthAlong({ palette }: Scene, guides: readonly (readonly Point[])[]): string {
  const roots = guides.map((guide): Point => guide[0] ?? [0, 0])
  const inside = Array.from({ length: 9 }, (_, step) => along(roots, 0.12 + 0.095 * step))
  return blurred(2, line(curve(...inside), palette.hairDark, 3.4, 0.34))
}

function sheen({ palette, random }: Scene, guides: readonly (readonly Point[])[], at: number): string {
  const streaks = Array.from({ length: 46 }, () => {
    const strand = between(guides, random.between(0.08, 0.94))
    const middle = at + random.between(-0.09, 0.09)
    const reach = random.between(0.04, 0.11)
    return line(
      curve(along(strand, middle - reach), along(strand, middle), along(strand, middle + reach)),
      mix(palette.hairLight, [255, 255, 255], 0.18),
      random.between(0.6, 1.6),
      0.3,
    )
  })
  return crisp(...streaks)
}

/** Single hairs that stand off the silhouette; thin and steep, so that they never make a crown. */
export function flyAways({ palette, random, look }: Scene, silhouette: readonly Point[]): string {
  return Array.from({ length: look.flyAways }, () => {
    const [x, y] = along(silhouette, random.between(0.02, 0.9))
    const side = random.next() < 0.5 ? -1 : 1
    const lean = random.between(-3, 5)
    const rise = random.between(6, 15)
    const root: Point = [side * (x - 4), y + 5]
    return crisp(
      line(
        `M${mm(root[0])} ${mm(root[1])}Q${mm(root[0] + side * lean * 0.2)} ${mm(root[1] - rise * 0.6)} ${mm(root[0] + side * lean)} ${mm(root[1] - rise)}`,
        palette.hair,
        0.3,
        0.6,
      ),
    )
  }).join('')
}
