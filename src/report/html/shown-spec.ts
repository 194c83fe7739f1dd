import { win32 } from 'node:path'
import type { Report } from '../../judge/report.ts'

/** The spec as the page names it: the page may be passed on, and the folders of this machine stay here. */
export function shownSpec(spec: Report['spec']): Report['spec'] {
  // Both kinds of slash divide folders.
  const nameOf = (file: string) => win32.basename(file)
  return {
    ...spec,
    file: nameOf(spec.file),
    ...(spec.extends && { extends: spec.extends.map((one) => ({ ...one, file: nameOf(one.file) })) }),
  }
}
