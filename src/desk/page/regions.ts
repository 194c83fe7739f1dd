import type { Regions } from '../../server/page/document.ts'
import type { Desk } from '../desk.ts'
import { deliveryHead } from './delivery.ts'
import { findings } from './findings.ts'
import { houseStyle } from './house-style.ts'
import { deliveryList } from './list.ts'
import { signing } from './signing.ts'
import { differences, questions } from './terms.ts'

/** The parts of the page as they are now. */
export function regions({ style, deliveries, notes }: Desk): Regions {
  const { shown } = deliveries
  return {
    style: houseStyle(style),
    deliveries: deliveryList(deliveries, notes),
    delivery: deliveryHead(shown),
    questions: questions(shown),
    findings: findings(shown),
    differences: differences(shown),
    signing: signing(shown),
  }
}
