import type {
  Background,
  Face,
  Finish,
  Head,
  Measurements,
} from '../../../src/measure/schema/measurements.ts'
import type { DeliveredFile, Delivery } from '../../../src/rules/contract/delivery-rule.ts'
import { GOOD, GOOD_NAME } from '../judging/cases.ts'

export interface Changes {
  readonly head?: Partial<Head>
  readonly background?: Partial<Background>
  readonly face?: Partial<Face>
  readonly finish?: Partial<Finish>
  readonly rest?: Partial<Measurements>
  /** What the rules on the file said. */
  readonly judged?: Partial<Pick<DeliveredFile, 'settled' | 'fileCrop'>>
}

/** The good portrait of some person, with changes. */
export function portrait(person: string, deliverable: string, changes: Changes = {}): DeliveredFile {
  const file = `${deliverable}/${person}.jpg`
  return {
    person,
    resemblance: null,
    settled: [],
    fileCrop: null,
    ...changes.judged,
    name: { ...GOOD_NAME, path: file, deliverable, fields: { family: person } },
    measured: {
      ...GOOD,
      file,
      sha256: null,
      head: GOOD.head ? { ...GOOD.head, ...changes.head } : null,
      background: GOOD.background ? { ...GOOD.background, ...changes.background } : null,
      face: GOOD.face ? { ...GOOD.face, ...changes.face } : null,
      finish: GOOD.finish ? { ...GOOD.finish, ...changes.finish } : null,
      ...changes.rest,
    },
  }
}

export function deliveryOf(files: readonly DeliveredFile[]): Delivery {
  const labels = [...new Set(files.flatMap(({ person }) => person ?? []))]
  return {
    files,
    people: labels.map((label) => ({ label, fields: { family: label }, entry: null })),
    deliverables: [...new Set(files.flatMap(({ name }) => name.deliverable ?? []))],
    roster: null,
    guesses: new Map(),
    today: '2026-11-25',
    namesJudged: true,
    partial: false,
    gallery: null,
  }
}
