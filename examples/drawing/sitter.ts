import { AVERAGE, type Look, type Proportions } from './look.ts'

/** One of the invented staff of the Osprey Lane Veterinary Group. Nobody by this name and number exists. */
export interface Sitter {
  /** In Unicode NFC. */
  readonly family: string
  readonly given: string
  /** Five digits; leading zeros count. */
  readonly staffId: string
  readonly look: Look
}

const PLAIN: Omit<Look, 'seed' | 'tone' | 'proportions'> = {
  hair: 'short',
  hairColor: 'black',
  flyAways: 0,
  headwear: 'none',
  headwearColor: '#3f6f78',
  spectacles: 'none',
  beard: 'none',
  eyes: '#4a3020',
  makeup: false,
  garment: 'scrubs',
  garmentColor: '#2f7f86',
}

type Traits = Partial<Omit<Look, 'seed' | 'tone' | 'proportions'>>

/** `tone` is an index into the Monk tones; what isn't said is plain or average. */
export function sitter(
  family: string,
  given: string,
  staffId: string,
  tone: number,
  traits: Traits,
  shape: Partial<Proportions>,
): Sitter {
  return {
    family,
    given,
    staffId,
    look: { ...PLAIN, ...traits, seed: Number(staffId), tone, proportions: { ...AVERAGE, ...shape } },
  }
}
