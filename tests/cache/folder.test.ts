import { expect, test } from 'vitest'
import { userCacheFolder } from '../../src/cache/folder.ts'

// XDG Base Directory Specification 0.8: $XDG_CACHE_HOME, else $HOME/.cache; a relative path is ignored.
test.each([
  ['linux', {}, '/home/ada', '/home/ada/.cache/portrait-gate'],
  ['linux', { XDG_CACHE_HOME: '/fast' }, '/home/ada', '/fast/portrait-gate'],
  ['linux', { XDG_CACHE_HOME: 'fast' }, '/home/ada', '/home/ada/.cache/portrait-gate'],
  ['darwin', { XDG_CACHE_HOME: '/fast' }, '/Users/ada', '/Users/ada/Library/Caches/portrait-gate'],
  ['win32', { LOCALAPPDATA: '/local' }, '/Users/ada', '/local/portrait-gate'],
  ['win32', {}, '/Users/ada', null],
  ['linux', {}, '', null],
] as const)('%s %o %s', (platform, env, home, folder) => {
  expect(userCacheFolder(env, platform, home)).toBe(folder)
})
