import { execFileSync } from 'node:child_process'
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { Session } from '../../../src/session-log/session.ts'
import { mounted } from '../fuzz/mounted.ts'

test('what does not fit on a full disk is written when there is room again', async () => {
  const disk = await mkdtemp(join(tmpdir(), 'portrait-gate-full-'))
  if (!mounted(disk, '64k')) return
  try {
    const told: (string | null)[] = []
    const folder = join(disk, 'session')
    await mkdir(folder)
    const { session } = await Session.open(folder, (trouble) => told.push(trouble))
    session.add({ kind: 'sits', sitter: 'Ikeda Naoki' })
    await session.settled()
    await writeFile(join(disk, 'filler'), Buffer.alloc(64 * 1024)).catch(() => {})
    const names = Array.from({ length: 400 }, (_, n) => `Sitter number ${n}`)
    for (const sitter of names) session.add({ kind: 'sits', sitter })
    await session.settled()
    expect(told).toEqual(['ENOSPC'])
    expect(session.state.sitting).toBe(names.at(-1))
    await rm(join(disk, 'filler'))
    session.retry()
    await session.close()
    expect(told).toEqual(['ENOSPC', null])
    const again = await Session.open(folder, () => {})
    expect([again.unread, again.session.state.sitting]).toEqual([0, names.at(-1)])
    for (let n = 0; n < names.length; n++) again.session.undo()
    expect(again.session.state.sitting).toBe('Ikeda Naoki')
    await again.session.close()
  } finally {
    execFileSync('umount', [disk])
    await rm(disk, { recursive: true, force: true })
  }
})
