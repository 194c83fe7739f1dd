import type { Sitter } from '../../../examples/drawing/sitters.ts'
import { DELIVERABLES, pathOf, rawName } from './house.ts'
import { landscape } from './landscape.ts'
import { STAFF, VISITOR } from './staff.ts'
import { type Delivery, savingOf, type Way } from './studio.ts'

/** What goes wrong with one person's files; the others are delivered as they should be. */
interface Fault {
  readonly family: string
  readonly print?: Way
  readonly web?: Way
  /** What else goes wrong, once the files are made. */
  readonly after?: (delivery: Delivery, sitter: Sitter) => Promise<void> | void
  /** Whether the studio has to make the person's files again, or look up the right ones: no computer can. */
  readonly again?: readonly ('print' | 'web')[]
}

const PAPER = { color: { L: 96.4, a: 0, b: 0 }, vignetteStops: 0.05 }
const both = (delivery: Delivery, sitter: Sitter, renamed: (path: string) => string) => {
  for (const deliverable of DELIVERABLES) {
    const path = pathOf(deliverable, sitter)
    if (delivery.files.has(path)) delivery.move(path, renamed(path))
  }
}
const sitterOf = (family: string): Sitter => {
  const found = STAFF.find((sitter) => sitter.family === family)
  if (!found) throw new Error(`Nobody is called ${family}.`)
  return found
}
const isMissing = (delivery: Delivery, sitter: Sitter) => {
  for (const deliverable of DELIVERABLES) delivery.files.delete(pathOf(deliverable, sitter))
}
const fromFrame = (sitter: Sitter, frame: number) => ({
  labels: { ...savingOf(sitter, 'print').labels, rawName: rawName(sitter, frame) },
})

/** The faults that a studio makes, one person each; the table of cases says what is to be told of them. */
const FAULTS: readonly Fault[] = [
  // What is called a pass and is none.
  { family: 'Abara', print: { shown: sitterOf('Bell') }, again: ['print'] },
  { family: 'Corrigan', web: { picture: { moment: { smile: 5, mouthOpen: 4, eyes: 0.8 } } }, again: ['web'] },
  {
    family: 'Duarte',
    print: { saving: fromFrame(sitterOf('Duarte'), 9) },
    web: { saving: fromFrame(sitterOf('Duarte'), 9) },
    again: ['print', 'web'],
  },
  {
    family: 'Esposito',
    print: { picture: { backdrop: { ...PAPER, color: { L: 93.9, a: 0, b: 0 } } } },
    again: ['print'],
  },
  {
    family: 'Fraser',
    after: async (delivery, sitter) => {
      const path = `late/${pathOf('web', sitter)}`
      await delivery.deliver(
        sitter,
        'web',
        { picture: { moment: { smile: 5, mouthOpen: 4, eyes: 0.8 } } },
        path,
      )
      delivery.supply.set(path, null)
    },
  },
  {
    family: 'Hollis',
    again: ['print'],
    after: async (delivery, sitter) => {
      delivery.files.set(pathOf('print', sitter), await landscape(sitter))
    },
  },
  { family: 'Jansen', print: { cut: { top: 205 } }, again: ['print'] },
  {
    family: 'Ibarra',
    print: { isGray: true },
    web: { saving: { colorSpace: 'gray' } },
  },
  {
    family: 'Ikeda',
    print: { saving: { colorSpace: 'Adobe RGB (1998)' } },
    web: { saving: { colorSpace: 'Display P3' } },
  },

  // One crop.
  { family: 'Mokoena', print: { cut: { left: 30, top: 30, width: 760, height: 950 } } },
  { family: 'Adeyemi', print: { cut: { top: 168 } } },
  { family: 'Lund', print: { cut: { top: 30 } } },
  { family: 'Marchetti', print: { cut: { left: 102 } } },
  { family: 'Nair', print: { size: { widthPx: 720, heightPx: 900 } } },
  { family: 'Okoro', web: { size: { widthPx: 300, heightPx: 300 } } },

  // Names.
  {
    family: 'Kovač',
    after: (delivery, sitter) => {
      const path = pathOf('web', sitter)
      delivery.move(path, path.normalize('NFD'))
    },
  },
  {
    family: 'Dhillon',
    print: { saving: { located: true, ppi: 72 } },
    after: (delivery, sitter) => {
      const path = pathOf('web', sitter)
      delivery.move(path, path.replace('Dhillon', 'dhillon'))
    },
  },
  {
    family: 'Wyn',
    after: (delivery, sitter) => {
      const path = pathOf('print', sitter)
      delivery.move(path, path.replace('.jpg', ' copy.jpg'))
    },
  },
  {
    family: 'Yıldız',
    after: ({ files }, sitter) => {
      const path = pathOf('print', sitter)
      files.set(path.replace('.jpg', ' (1).jpg'), files.get(path) ?? Buffer.alloc(0))
    },
  },
  {
    family: 'Bell',
    after: (delivery, sitter) => {
      const path = pathOf('web', sitter)
      delivery.move(path, path.replace('.jpg', '.jpeg'))
    },
  },
  { family: 'Pham', print: { saving: { format: 'png' } } },
  {
    family: 'Ziegler',
    after: (delivery, sitter) => {
      const path = pathOf('web', sitter)
      delivery.move(path, path.replace('00007', '0007'))
    },
  },
  {
    family: 'Castellanos',
    after: (delivery, sitter) => both(delivery, sitter, (path) => path.replace('Castellanos', 'Castelanos')),
  },
  {
    family: 'Petrenko',
    after: (delivery, sitter) => both(delivery, sitter, (path) => path.replace('.jpg', '_v2.jpg')),
  },
  ...['Nyström', 'Orlov', 'Silva'].map(
    (family): Fault => ({
      family,
      after: (delivery, sitter) => {
        const path = pathOf('web', sitter)
        delivery.move(path, path.replace('web/', 'wep/'))
      },
    }),
  ),

  // People.
  ...['Quiroga', 'Rasmussen', 'Kaya'].map(
    (family): Fault => ({ family, after: isMissing, again: ['print', 'web'] }),
  ),
  {
    family: 'Usman',
    after: ({ files }, sitter) => {
      files.delete(pathOf('web', sitter))
    },
    again: ['web'],
  },
  {
    family: 'Tamati',
    after: (delivery, sitter) => {
      const asStranger = (path: string) => path.replace('Wiremu_18777', 'Kauri_90001')
      both(delivery, sitter, asStranger)
      for (const path of DELIVERABLES.map((one) => pathOf(one, sitter)))
        delivery.known.set(asStranger(path), path)
    },
  },

  // Files.
  {
    family: 'Gunnarsson',
    after: ({ files }, sitter) => {
      const print = pathOf('print', sitter)
      const whole = files.get(print) ?? Buffer.alloc(0)
      files
        .set(print, whole.subarray(0, Math.floor(0.6 * whole.length)))
        .set(pathOf('web', sitter), Buffer.alloc(0))
    },
  },
  { family: 'Jokinen', print: { saving: { progressive: true } } },
  { family: 'Eriksen', print: { saving: { quality: 60, subsampling: '4:2:0' } } },
  { family: 'Farouk', web: { saving: { thumbnailOf: Buffer.alloc(0) } } },
  { family: 'Grieve', print: { saving: { onItsSide: true } } },
  {
    family: 'Lefebvre',
    print: { saving: { labels: { ...savingOf(sitterOf('Lefebvre'), 'print').labels, altText: null } } },
  },

  // Light and focus.
  {
    family: 'Bergström',
    print: { picture: { backdrop: { ...PAPER, color: { L: 88.3, a: 0, b: 0 } } } },
    again: ['print'],
  },
  { family: 'Haile', print: { picture: { key: { side: 'right', ratioStops: 0.6 } } }, again: ['print'] },
]

/** Delivers the files of some of the staff with all their faults, and those of a visitor. */
export async function plant(delivery: Delivery, staff: readonly Sitter[]): Promise<void> {
  for (const sitter of staff) {
    const fault = FAULTS.find(({ family }) => family === sitter.family)
    for (const deliverable of DELIVERABLES) {
      await delivery.deliver(sitter, deliverable, fault?.[deliverable])
      if (fault?.again?.includes(deliverable)) await delivery.have(sitter, deliverable)
    }
    await fault?.after?.(delivery, sitter)
  }
  for (const deliverable of DELIVERABLES) {
    await delivery.deliver(VISITOR, deliverable)
    delivery.supply.set(pathOf(deliverable, VISITOR), null)
  }
}
