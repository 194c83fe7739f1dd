import type { DeliveredFile } from '../contract/delivery-rule.ts'

/** The files of each person, by label and in their order; files whose names tell nobody are left out. */
export function byPerson(files: readonly DeliveredFile[]): ReadonlyMap<string, readonly DeliveredFile[]> {
  const own = new Map<string, DeliveredFile[]>()
  for (const file of files) {
    if (file.person === null) continue
    const others = own.get(file.person)
    if (others) others.push(file)
    else own.set(file.person, [file])
  }
  return own
}
