import { describe, expect, test } from 'vitest'
import { commonFolder, isInside } from '../../src/files/folders.ts'

describe('isInside', () => {
  test.each([
    ['/a/b', '/a', true],
    ['/a', '/a', true],
    ['/ab', '/a', false],
    ['/', '/a', false],
    ['/a/..b', '/a', true],
    ['/a/../b', '/a', false],
    ['/anything', '/', true],
  ])('%s in %s: %s', (path, folder, inside) => {
    expect(isInside(path, folder)).toBe(inside)
  })
})

describe('commonFolder', () => {
  test.each([
    [[], null],
    [['/a/b'], '/a/b'],
    [['/a/b', '/a/c'], '/a'],
    [['/a/b', '/a'], '/a'],
    [['/a', '/a/b'], '/a'],
    [['/a/b', '/ab'], '/'],
    [['/a/bc', '/a/bd'], '/a'],
    [['/', '/a'], '/'],
    [['/x/a', '/y/a'], '/'],
  ])('%j: %s', (folders, common) => {
    expect(commonFolder(folders)).toBe(common)
  })
})
