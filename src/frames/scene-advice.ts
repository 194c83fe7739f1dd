import type { Background, Measurements } from '../measure/schema/measurements.ts'
import type { Figure } from '../rules/contract/outcome.ts'
import { stopsBetween } from '../rules/judging/stops.ts'
import type { Advice, Change } from './advice.ts'
import type { SceneOutcome } from './frame-report.ts'

/** What the photographer is to change about what no crop changes. */
export function sceneAdvice(scene: readonly SceneOutcome[], measured: Measurements): Advice[] {
  return scene.flatMap((outcome) => {
    const { rule, deliverables, advisory, verdict } = outcome
    if (verdict !== 'fail' && verdict !== 'unsure') return []
    const changes: readonly Change[] =
      verdict === 'unsure'
        ? [{ code: 'check' }]
        : (CHANGES[rule]?.(outcome, measured) ?? [{ code: 'shoot-again' }])
    return changes.map((change) => ({ ...change, rule, deliverables, advisory }))
  })
}

type Changes = (outcome: SceneOutcome, measured: Measurements) => readonly Change[]

const CHANGES: Readonly<Record<string, Changes>> = {
  intact: () => [{ code: 'copy-again' }],
  'one-face': () => [{ code: 'one-person' }],
  facing: ({ figure }, { face }) => {
    if (!figure || !face) return [{ code: 'shoot-again' }]
    const deg = beyond(figure)
    const isTurn = figure.value === face.turnDeg
    if (isTurn) return [{ code: 'turn-head', deg: Math.abs(deg), side: deg > 0 ? 'left' : 'right' }]
    return [{ code: 'nod-head', deg: Math.abs(deg), side: deg > 0 ? 'down' : 'up' }]
  },
  'eye-focus': ({ figure }) => [{ code: figure && beyond(figure) < 0 ? 'shoot-again' : 'focus' }],
  'lens-glare': () => [{ code: 'tip-spectacles' }],
  clipping: ({ figure }, { finish }) => [
    { code: 'face-light', side: figure && figure.value === finish?.clippedShadowPct ? 'up' : 'down' },
  ],
  'key-side': ({ figure, expected }) => {
    if (figure) return [{ code: 'fill', stops: beyond(figure) }]
    const side = (['left', 'right'] as const).find((one) => expected?.endsWith(one))
    return [{ code: 'move-key', side: side ?? 'none' }]
  },
  'background-lightness': ({ figure }, { background }) => [
    { code: 'light-backdrop', ...(figure && lightFor(figure, background?.sides)) },
  ],
  'background-unevenness': (_, { background }) => {
    const { leftL = 0, rightL = 0 } = background?.sides ?? {}
    const stops = stopsBetween(Math.min(leftL, rightL), Math.max(leftL, rightL))
    if (stops < LEAST_APART_STOPS) return [{ code: 'even-backdrop' }]
    return [{ code: 'light-backdrop', stops, side: leftL < rightL ? 'left' : 'right' }]
  },
  'background-plain': () => [{ code: 'plain-backdrop' }],
  'background-tint': (_, { background }) => [
    { code: 'neutral-backdrop', ...(background && { hueDeg: background.hueDeg }) },
  ],
  'skin-cast': ({ figure }) => [{ code: 'white-balance', ...(figure && { hueDeg: figure.value }) }],
}

/** Difference between the sides of the backdrop from which on the advice names one, stops. @choice a tenth is what a light is set by; no source */
const LEAST_APART_STOPS = 0.1

/** The light that brings the backdrop within its limits: at the side that needs more of a change, where they differ. */
function lightFor(figure: Figure, sides: Background['sides']): Pick<Change, 'stops' | 'side'> {
  const { value } = figure
  const limit = value - beyond(figure)
  const whole = stopsBetween(value, limit)
  if (!sides) return { stops: whole }
  const [left, right] = [stopsBetween(sides.leftL, limit), stopsBetween(sides.rightL, limit)]
  if (Math.abs(left - right) < LEAST_APART_STOPS) return { stops: whole }
  const isLeft = left > right === whole > 0
  return { stops: isLeft ? left : right, side: isLeft ? 'left' : 'right' }
}

/** How far a value is beyond its limits: positive above, negative below. */
function beyond({ value, min = -Infinity, max = Infinity }: Figure): number {
  return Math.max(0, value - max) || Math.min(0, value - min)
}
