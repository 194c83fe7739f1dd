import sharp from 'sharp'
import type { Sitter } from '../../../examples/drawing/sitters.ts'
import { saved } from './exporting.ts'
import { OUTPUTS } from './house.ts'
import { savingOf } from './studio.ts'

/** A picture of a hill under the sky, of the right size and saved as it should be: nobody is in it. */
export function landscape(sitter: Sitter): Promise<Buffer> {
  const { widthPx, heightPx } = OUTPUTS.print
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${heightPx}"><rect width="100%" height="100%" fill="#cfe0ee"/><path d="M0 520Q200 380 420 500T600 470V750H0Z" fill="#6f8f5a"/><path d="M0 640Q260 560 600 650V750H0Z" fill="#4f6f45"/></svg>`
  return saved(sharp(Buffer.from(svg)), savingOf(sitter, 'print'))
}
