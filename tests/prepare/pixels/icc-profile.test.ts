import { execFileSync } from 'node:child_process'
import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { knownProfile } from '../../../src/measure/file/icc/known-profile.ts'
import { iccProfile } from '../../../src/prepare/pixels/icc-profile.ts'
import { COLOR_SPACES } from '../../../src/rules/contract/export-settings.ts'
import { debianTool } from '../../outside/debian.ts'

test.each(COLOR_SPACES.filter((name) => name !== 'gray'))(
  'the profile of %s is that space by its content',
  (name) => {
    expect(knownProfile(iccProfile(name))).toEqual({ identity: name, name })
  },
)

const transicc = debianTool('liblcms2-utils', 'transicc')

// L* a* b* (D50) of the code 200, 150, 120, by LittleCMS's transicc through profiles that are not ours: those of Debian's icc-profiles-free
// (sRGB, Adobe RGB) and argyll-ref (Display P3, ProPhoto RGB).
const LAB = {
  sRGB: [66.41, 16.5, 23.54],
  'Adobe RGB (1998)': [68.69, 22.71, 27.36],
  'Display P3': [66.744, 21.183, 27.027],
  'ProPhoto RGB': [73.541, 34.958, 27.145],
} as const

test.skipIf(!transicc).each(Object.entries(LAB))(
  'LittleCMS reads the profile of %s as it reads others of that space',
  (name, lab) => {
    const file = join(mkdtempSync(join(tmpdir(), 'icc-')), 'made.icc')
    const space = COLOR_SPACES.find((one) => one === name)
    if (!space) throw new Error(`Nobody knows ${name}.`)
    writeFileSync(file, iccProfile(space))
    const printed = execFileSync(transicc ?? '', ['-n', '-t', '1', '-i', file, '-o', '*Lab'], {
      input: '200 150 120\n',
      stdio: ['pipe', 'pipe', 'ignore'],
    })
    const found = printed.toString().trim().split(/\s+/).map(Number)
    for (const [index, value] of lab.entries()) expect(found[index]).toBeCloseTo(value, 1)
  },
)
