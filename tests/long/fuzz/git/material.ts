import { join } from 'node:path'
import { picture } from '../../../action/runner/deliveries.ts'
import { emptyRepository, SERVES_ANY } from '../../../action/runner/git.ts'
import { importCommits } from '../../../action/runner/import.ts'
import type { Material } from './cases.ts'

/** Tiny pictures, and a repository of them to be a submodule. */
export async function makeMaterial(temp: string): Promise<Material> {
  const good = await Promise.all(Array.from({ length: 8 }, (_, i) => picture(80, 100, 150 + 10 * i)))
  const small = await Promise.all(Array.from({ length: 3 }, (_, i) => picture(60, 75, 160 + 10 * i)))
  const cut = (good[0] as Buffer).subarray(0, 400)
  const bad = [...small, Buffer.from('letter'), Buffer.alloc(0), cut]
  const folder = join(temp, 'submodule')
  await emptyRepository(folder, SERVES_ANY)
  const before = new Map([['Abara-Chidi.jpg', { file: good[7] as Buffer }]])
  const after = new Map([...before, ['Baker-Sam.jpg', { file: small[0] as Buffer }]])
  const [first = '', second = ''] = await importCommits(folder, [
    { paths: before, parents: [] },
    { paths: after, parents: [1] },
  ])
  return { good, bad, submodule: { url: `file://${folder}`, good: first, bad: second } }
}
