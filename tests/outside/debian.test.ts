import { afterEach, expect, test, vi } from 'vitest'
import { debianFile, debianTool } from './debian.ts'

afterEach(() => {
  vi.unstubAllEnvs()
  vi.restoreAllMocks()
})

test('what is there is found', () => {
  expect(debianFile('colord-data', import.meta.filename)).toBe(import.meta.filename)
  vi.stubEnv('PATH', import.meta.dirname)
  expect(debianTool('colord-data', 'debian.test.ts')).toBe(import.meta.filename)
})

test('what is absent is told, once, with what to install', () => {
  vi.stubEnv('CI', '')
  const write = vi.spyOn(process.stderr, 'write').mockReturnValue(true)
  expect(debianFile('colord-data', '/absent/profile.icc')).toBeNull()
  expect(debianFile('colord-data', '/absent/profile.icc')).toBeNull()
  expect(write).toHaveBeenCalledOnce()
  expect(write).toHaveBeenCalledWith(
    'NOT CHECKED against /absent/profile.icc: it is not installed. Run: apt-get install colord-data\n',
  )
})

test('in CI what is absent is an error', () => {
  vi.stubEnv('CI', 'true')
  expect(() => debianTool('colord-data', 'absent-program')).toThrow(/NOT CHECKED against absent-program/)
})

test('a package that is not on the list is an error', () => {
  expect(() => debianFile('no-such-package', '/absent')).toThrow(/debian-packages\.txt/)
})
