import { type Sitter, sitter } from './sitter.ts'

const NAVY = '#2b3d5e'
const TEAL = '#2f7f86'
const PLUM = '#6b3f5e'
const SKY = '#8fb0cf'

/** Staff of the Osprey Lane Veterinary Group whose family names start with A to F. */
export const STAFF_A_TO_F: readonly Sitter[] = [
  sitter(
    'Adeyemi',
    'Folasade',
    '00418',
    8,
    { hair: 'topknot', makeup: true, garmentColor: PLUM },
    {
      headBreadth: 146,
      skullAboveEyes: 108,
      chinBelowEyes: 108,
      noseWidth: 39,
      mouthWidth: 53,
      lips: 0.95,
      jaw: 0.2,
      brows: 0.35,
      lines: 0.1,
    },
  ),
  sitter(
    'Bergström',
    'Åsa',
    '01207',
    0,
    {
      hair: 'long',
      hairColor: 'blond',
      flyAways: 9,
      eyes: '#6d8ea3',
      makeup: true,
      garment: 'white-coat',
      garmentColor: SKY,
    },
    { headBreadth: 145, chinBelowEyes: 107, noseWidth: 32, jaw: 0.2, lips: 0.45, brows: 0.25, lines: 0.15 },
  ),
  sitter(
    'Castellanos',
    'Inés',
    '10233',
    4,
    { hair: 'waves', hairColor: 'brown', flyAways: 8, eyes: '#5d4a2c', makeup: true, garmentColor: TEAL },
    {
      headBreadth: 147,
      skullAboveEyes: 107,
      chinBelowEyes: 109,
      noseWidth: 34,
      jaw: 0.3,
      lips: 0.7,
      brows: 0.5,
    },
  ),
  sitter(
    'Dhillon',
    'Harpreet',
    '10871',
    5,
    {
      headwear: 'turban',
      headwearColor: '#27406b',
      beard: 'full',
      garment: 'shirt',
      garmentColor: '#e3e6ea',
    },
    { headBreadth: 154, noseWidth: 37, jaw: 0.6, brows: 0.85, lines: 0.3 },
  ),
  sitter(
    'Eriksen',
    'Søren',
    '00752',
    2,
    {
      hair: 'receding',
      hairColor: 'gray',
      spectacles: 'thin',
      eyes: '#7396a8',
      garment: 'shirt',
      garmentColor: SKY,
    },
    {
      headBreadth: 157,
      skullAboveEyes: 113,
      chinBelowEyes: 117,
      noseWidth: 36,
      jaw: 0.6,
      lips: 0.3,
      lines: 0.85,
      brows: 0.6,
    },
  ),
  sitter(
    'Farouk',
    'Layla',
    '11904',
    3,
    { headwear: 'headscarf', headwearColor: '#8a5a6a', makeup: true, eyes: '#5a3c22', garmentColor: NAVY },
    {
      headBreadth: 147,
      chinBelowEyes: 108,
      noseWidth: 34,
      jaw: 0.2,
      lips: 0.65,
      brows: 0.6,
      eyeOpening: 11.2,
    },
  ),
]
