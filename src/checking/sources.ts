import { readNames } from '../delivery/identify.ts'
import type { FoundFile } from '../delivery/walk.ts'
import { formatsFor } from '../judge/needs.ts'
import type { Standard } from '../judge/standard.ts'
import type { Source } from '../measure/file/read-file.ts'
import type { NameReading } from '../naming/name-reading.ts'
import { RULES } from '../rules/index.ts'

/** What the name of each file tells. Names are read all together, since two can collide. */
export function namesOf(files: readonly FoundFile[], { spec }: Standard): (file: string) => NameReading {
  const read = readNames(files, spec.naming, Object.keys(spec.deliverables))
  const names = new Map(read.map((name) => [name.path, name]))
  return (file) => {
    const name = names.get(file)
    if (!name) throw new Error(`No name was read for ${file}.`)
    return name
  }
}

/** Files as they are to be measured: what the spec refuses by its format is not looked at any further. */
export function sourcesOf(
  files: readonly FoundFile[],
  nameOf: (file: string) => NameReading,
  { spec }: Standard,
): Source[] {
  const byDeliverable = new Map<string | null, ReturnType<typeof formatsFor>>()
  return files.map((one) => {
    const name = nameOf(one.file)
    const { deliverable } = name
    if (!byDeliverable.has(deliverable)) byDeliverable.set(deliverable, formatsFor(name, spec, RULES))
    return { formats: byDeliverable.get(deliverable), ...one }
  })
}
