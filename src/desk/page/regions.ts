import type { Markup } from '../../report/html/markup.ts'
import type { Desk } from '../desk.ts'
import { deliveryHead } from './delivery.ts'
import { ending } from './ending.ts'
import { findings } from './findings.ts'
import { houseStyle } from './house-style.ts'
import { deliveryList } from './list.ts'
import { signing } from './signing.ts'
import { differences, questions } from './terms.ts'

type Place =
  | 'style'
  | 'deliveries'
  | 'delivery'
  | 'questions'
  | 'findings'
  | 'differences'
  | 'signing'
  | 'ending'

/** The parts of the page as they are now. */
export function regions({ style, deliveries, notes }: Desk): Record<Place, Markup> {
  const { shown } = deliveries
  return {
    style: houseStyle(style),
    deliveries: deliveryList(deliveries, notes),
    delivery: deliveryHead(shown),
    questions: questions(shown),
    findings: findings(shown),
    differences: differences(shown),
    signing: signing(shown),
    ending: ending(deliveries.unkept),
  }
}

/** The parts of the page when nothing is to be seen any more. */
export const EMPTY: Record<Place, string> = {
  style: '',
  deliveries: '',
  delivery: '',
  questions: '',
  findings: '',
  differences: '',
  signing: '',
  ending: '',
}
