// Tones of pixels, 8-bit codes of red, green and blue interleaved.

/** Of each pixel the sum of what three tables have for its red, green and blue, as a float. @param tables of 256 doubles each */
export function tones(codes: usize, count: i32, tables: usize, out: usize): void {
  for (let i = 0; i < count; i++, codes += 3, out += 4) {
    const red = load<f64>(tables + (<usize>load<u8>(codes) << 3))
    const green = load<f64>(tables + (<usize>load<u8>(codes, 1) << 3), 2048)
    const blue = load<f64>(tables + (<usize>load<u8>(codes, 2) << 3), 4096)
    store<f32>(out, <f32>(red + green + blue))
  }
}

/**
 * As the definition in tests/kernels/tones.test.ts: marks the pixels of a mask that are paler than a color, or far brighter.
 * @param light floats, that of each code
 * @param mask of the pixels that are looked at, in place of which the marks are written
 */
export function markPale(
  codes: usize,
  luminance: usize,
  count: i32,
  light: usize,
  green: f64,
  perGreen: f64,
  blue: f64,
  perBlue: f64,
  leastShare: f64,
  leastPale: f64,
  leastBright: f64,
  mask: usize,
): void {
  for (let i: usize = 0; i < <usize>count; i++, codes += 3) {
    if (load<u8>(mask + i) == 0) continue
    const bright = <f64>load<f32>(luminance + (i << 2))
    let isMarked = bright > leastBright
    if (!isMarked && bright > leastPale) {
      const red = lightOf(codes, light)
      const share = max((lightOf(codes + 1, light) - green * red) * perGreen, (lightOf(codes + 2, light) - blue * red) * perBlue)
      isMarked = share > leastShare
    }
    store<u8>(mask + i, <u8>isMarked)
  }
}

function lightOf(code: usize, light: usize): f64 {
  return <f64>load<f32>(light + (<usize>load<u8>(code) << 2))
}

/** Of each pixel one channel over red, as a float. @param channel 1 for green, 2 for blue @param light doubles, that of each code @param least red light that is assumed */
export function overRed(codes: usize, count: i32, channel: usize, light: usize, least: f64, out: usize): void {
  for (let i = 0; i < count; i++, codes += 3, out += 4) {
    const red = max(load<f64>(light + (<usize>load<u8>(codes) << 3)), least)
    store<f32>(out, <f32>(load<f64>(light + (<usize>load<u8>(codes + channel) << 3)) / red))
  }
}
