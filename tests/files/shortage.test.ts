import { expect, test } from 'vitest'
import { fatalShortageOf, shortageOf } from '../../src/files/shortage.ts'

// POSIX.1-2017, 2.3: EMFILE, ENFILE and ENOMEM; the other messages are those of V8 under a limit of memory.
test.each([
  ["EMFILE: too many open files, open 'a.jpg'", 'this process may open no more files'],
  ["ENFILE: file table overflow, open 'a.jpg'", 'the system can open no more files'],
  ['Worker initialization failure: EMFILE', 'this process may open no more files'],
  ['ENOMEM: not enough memory, read', 'there is not enough memory'],
  ['WebAssembly.Memory(): could not allocate memory', 'there is not enough memory'],
  ['WebAssembly.instantiate(): Out of memory: Cannot allocate Wasm memory for new instance', 'memory'],
  ['Array buffer allocation failed', 'there is not enough memory'],
])('%s', (message, words) => {
  expect(shortageOf(new Error(message))).toContain(words)
})

test.each([
  "EACCES: permission denied, open 'EMFILE: x.jpg'",
  'The face models could not be started',
  // libtiff of a spoiled file: what it does without is no shortage of the machine's.
  'tiff2vips: Out of memory reading of "Photoshop"; tag ignored\ntiff2vips: error in tile 0 x 0',
])('%s is none', (message) => expect(shortageOf(new Error(message))).toBeNull())

test('memory that is missing beside a tag that was done without is one', () => {
  const message = 'tiff2vips: Out of memory reading of "Photoshop"; tag ignored\nvips: out of memory'
  expect(shortageOf(new Error(message))).toContain('there is not enough memory')
})

test('where few files may be open, a part of the program that is not found is one', () => {
  const error = Object.assign(new Error("Cannot find package 'ajv'"), { code: 'ERR_MODULE_NOT_FOUND' })
  const report = (soft: unknown) => () => ({ userLimits: { open_files: { soft, hard: 1_048_576 } } })
  expect(fatalShortageOf(error, report(64))).toContain('ulimit -n')
  expect(fatalShortageOf(error, report(1024))).toBeNull()
  expect(fatalShortageOf(error, report('unlimited'))).toBeNull()
  expect(fatalShortageOf(error, () => ({}))).toBeNull()
  expect(fatalShortageOf(new Error('another'), report(64))).toBeNull()
})
