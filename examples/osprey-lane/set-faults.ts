import type { Frame } from '../drawing/frame.ts'
import { type Deliverable, PAPER } from './house-style.ts'

/** A fault of the faulty delivery as a whole, and the rule that must tell it. */
export interface SetFault {
  readonly fault: string
  readonly rule: string
  /** Labels of the people and paths of the files that the rule must name; others may be named beside them. */
  readonly people: readonly string[]
  readonly files: readonly string[]
}

/** Files that are drawn otherwise for a fault of the set; each is faultless by itself. */
export const REDRAWN: readonly {
  readonly family: string
  readonly deliverable: Deliverable
  readonly picture: Partial<Frame>
}[] = [
  {
    family: 'Dhillon',
    deliverable: 'web',
    picture: { moment: { smile: 5, mouthOpen: 4, eyes: 0.8, turnDeg: 34 } },
  },
  // Still within the band of the house style, but not with the others.
  {
    family: 'Eriksen',
    deliverable: 'print',
    picture: { backdrop: { ...PAPER, color: { L: 93.9, a: 0, b: 0 } } },
  },
]

const SWAPPED = ['web/Lund-Bjørn_00990.jpg', 'web/Mokoena-Thandi_15120.jpg'] as const
const TWICE = { from: 'web/Grieve-Morag_00033.jpg', to: 'late/web/Grieve-Morag_00033.jpg' } as const
const GONE = ['print/Nair-Priya_15388.jpg', 'web/Nair-Priya_15388.jpg'] as const
const MISSPELLED = {
  from: 'print/Castellanos-Inés_10233.jpg',
  to: 'print/Castelanos-Inés_10233.jpg',
} as const

/** Where a file of the faulty delivery lies in the end. */
export function misspelt(file: string): string {
  return file === MISSPELLED.from ? MISSPELLED.to : file
}

/** Makes the faults that lie in which file stands where. @param files contents by path; changed in place */
export function misplace(files: Map<string, Buffer>): void {
  const at = (path: string): Buffer => {
    const bytes = files.get(path)
    if (!bytes) throw new Error(`The delivery has no ${path}.`)
    return bytes
  }
  const [one, other] = SWAPPED
  const [first, second] = [at(one), at(other)]
  files.set(one, second).set(other, first)
  files.set(TWICE.to, at(TWICE.from))
  files.set(MISSPELLED.to, at(MISSPELLED.from)).delete(MISSPELLED.from)
  for (const path of GONE) files.delete(path)
}

export const SET_FAULTS: readonly SetFault[] = [
  {
    fault: 'Nobody has seen to Priya Nair: both of her files are missing.',
    rule: 'roster',
    people: ['Nair Priya 15388'],
    files: [],
  },
  {
    fault: 'A family name is misspelled in one file.',
    rule: 'roster',
    people: ['Castellanos Inés 10233'],
    files: [MISSPELLED.to],
  },
  {
    fault: 'A portrait was delivered again, late and in a folder of its own.',
    rule: 'variants',
    people: ['Grieve Morag 00033'],
    files: [TWICE.from, TWICE.to],
  },
  {
    fault: 'Two people are swapped in the web files: this is Thandi Mokoena.',
    rule: 'same-frame',
    people: ['Lund Bjørn 00990'],
    files: [SWAPPED[0]],
  },
  {
    fault: 'Two people are swapped in the web files: this is Bjørn Lund.',
    rule: 'same-frame',
    people: ['Mokoena Thandi 15120'],
    files: [SWAPPED[1]],
  },
  {
    fault: 'The web file is made from another frame, with another smile.',
    rule: 'same-frame',
    people: ['Dhillon Harpreet 10871'],
    files: ['web/Dhillon-Harpreet_10871.jpg'],
  },
  {
    fault: 'The web file is a mirror image of the print.',
    rule: 'same-frame',
    people: ['Castellanos Inés 10233'],
    files: [MISSPELLED.to, 'web/Castellanos-Inés_10233.jpg'],
  },
  {
    fault: 'The backdrop has drifted: L* 94, still within the band, but darker than all others.',
    rule: 'set-match',
    people: ['Eriksen Søren 00752'],
    files: ['print/Eriksen-Søren_00752.jpg'],
  },
  {
    fault: 'For the swap, one picture stands for two people. (Of the other, the print has a second face.)',
    rule: 'duplicate-picture',
    people: ['Mokoena Thandi 15120', 'Lund Bjørn 00990'],
    files: ['print/Mokoena-Thandi_15120.jpg', SWAPPED[0]],
  },
  {
    fault: 'The print with the tilted head is drawn anew, and so from another frame than the web file.',
    rule: 'same-frame',
    people: ['Haile Tewodros 12450'],
    files: ['print/Haile-Tewodros_12450.jpg', 'web/Haile-Tewodros_12450.jpg'],
  },
  ...standingOut(),
]

/** What is wrong with a single file by so much that the file also stands out from the set. */
function standingOut(): SetFault[] {
  const faults: readonly (readonly [string, string, string])[] = [
    ['Eriksen Søren 00752', 'web/Eriksen-Søren_00752.jpg', 'its warm backdrop'],
    ['Ikeda Naoki 13377', 'web/Ikeda-Naoki_13377.jpg', 'the sitter off the middle'],
    ['Haile Tewodros 12450', 'print/Haile-Tewodros_12450.jpg', 'its light from the other side'],
    ['Castellanos Inés 10233', 'web/Castellanos-Inés_10233.jpg', 'its light from the other side'],
    ['Dhillon Harpreet 10871', 'print/Dhillon-Harpreet_10871.jpg', 'its blue skin'],
    ['Farouk Layla 11904', 'print/Farouk-Layla_11904.jpg', 'its uneven backdrop'],
    ['Bergström Åsa 01207', 'print/Bergström-Åsa_01207.jpg', 'its gray backdrop and smooth skin'],
    ['Mokoena Thandi 15120', 'print/Mokoena-Thandi_15120.jpg', 'its wide crop'],
  ]
  return faults.map(([person, file, why]) => ({
    fault: `The file stands out from the set for ${why}.`,
    rule: 'set-match',
    people: [person],
    files: [file],
  }))
}
