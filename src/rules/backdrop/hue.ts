/**
 * Upper end of each sector of the CIELAB hue circle, degrees, and its name; beyond the last one it is pink again.
 * @choice so that the sRGB primaries and secondaries (D50) have their own names: red 41°, yellow 100°, green 134°, cyan 197°, blue 301°,
 * magenta 327°.
 */
const SECTORS = [
  [20, 'pink'],
  [58, 'red (warm)'],
  [80, 'orange (warm)'],
  [112, 'yellow (warm)'],
  [172, 'green'],
  [212, 'blue-green (cool)'],
  [308, 'blue (cool)'],
  [345, 'magenta'],
] as const

/**
 * Name of a CIELAB hue as a retoucher would say it.
 * @param hueDeg CIE hue angle, any number of turns
 */
export function hueWord(hueDeg: number): string {
  const turned = ((hueDeg % 360) + 360) % 360
  return SECTORS.find(([end]) => turned < end)?.[1] ?? 'pink'
}

/** Name of the hue that takes a tint away. */
export function oppositeHue(hueDeg: number): string {
  return hueWord(hueDeg + 180)
}
