import type { PreparePlan } from '../planning/plan.ts'

/** What would be done, as JSON. */
export function planJson({ files, unmade }: PreparePlan): string {
  const plan = {
    kind: 'plan of a delivery',
    schemaVersion: 1,
    files: files.map(({ file, master, order, turnDeg, crop, size, tight, isLossless, labels }) => ({
      file,
      deliverable: order.deliverable,
      master: master.found.file,
      ...{ turnDeg, crop, ...size, tight, isLossless, scale: size.widthPx / crop.widthPx },
      ...{ format: order.format, colorSpace: labels.colorSpace, metadata: labels.fields },
    })),
    unmade: unmade.map(({ master, ...rest }) => ({ master: master.found.file, ...rest })),
  }
  return `${JSON.stringify(plan, null, 2)}\n`
}
