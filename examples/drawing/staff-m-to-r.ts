import { type Sitter, sitter } from './sitter.ts'

const TEAL = '#2f7f86'
const PLUM = '#6b3f5e'

/** Staff of the Osprey Lane Veterinary Group whose family names start with M to R. */
export const STAFF_M_TO_R: readonly Sitter[] = [
  sitter(
    'Mokoena',
    'Thandi',
    '15120',
    7,
    { hair: 'afro', makeup: true, garmentColor: PLUM },
    {
      headBreadth: 147,
      skullAboveEyes: 106,
      chinBelowEyes: 108,
      noseWidth: 39,
      mouthWidth: 53,
      lips: 0.95,
      jaw: 0.25,
      brows: 0.4,
    },
  ),
  sitter(
    'Nair',
    'Priya',
    '15388',
    6,
    { hair: 'long', flyAways: 7, makeup: true, garment: 'white-coat', garmentColor: '#b9553f' },
    {
      headBreadth: 145,
      chinBelowEyes: 107,
      noseWidth: 35,
      jaw: 0.2,
      lips: 0.75,
      brows: 0.65,
      eyeOpening: 11.4,
    },
  ),
  sitter(
    'Okoro',
    'Emeka',
    '16011',
    7,
    { hair: 'bald', spectacles: 'thick', garment: 'shirt', garmentColor: '#f0eee8' },
    {
      headBreadth: 156,
      skullAboveEyes: 113,
      chinBelowEyes: 118,
      noseWidth: 41,
      mouthWidth: 55,
      lips: 0.85,
      jaw: 0.7,
      brows: 0.5,
      lines: 0.4,
    },
  ),
  sitter(
    'Pham',
    'Linh',
    '16245',
    4,
    { hair: 'bob', flyAways: 4, eyes: '#2c1f18', makeup: true, garmentColor: TEAL },
    {
      headBreadth: 150,
      chinBelowEyes: 106,
      noseWidth: 35,
      jaw: 0.25,
      lips: 0.6,
      brows: 0.4,
      eyeOpening: 9.6,
    },
  ),
  sitter(
    'Quiroga',
    'Matías',
    '17090',
    5,
    { hair: 'swept', beard: 'short', spectacles: 'thin', garment: 'pullover', garmentColor: '#7a6a58' },
    { headBreadth: 155, chinBelowEyes: 116, noseWidth: 37, jaw: 0.65, brows: 0.7, lines: 0.35 },
  ),
  sitter(
    'Rasmussen',
    'Kirsten',
    '02048',
    1,
    {
      hair: 'swept',
      hairColor: 'gray',
      flyAways: 5,
      eyes: '#6e8a9a',
      garment: 'shirt',
      garmentColor: '#b8586a',
    },
    { headBreadth: 148, chinBelowEyes: 111, noseWidth: 34, jaw: 0.4, lips: 0.4, lines: 0.65, brows: 0.3 },
  ),
]
