import process from 'node:process'
import { setFlagsFromString } from 'node:v8'

/**
 * How much of a function of WebAssembly runs, in bytes of code or so, before it is compiled anew for speed.
 * @tuned in pairs on one portrait and on twelve: V8's own 1.8 million has functions compiled that one portrait runs a few times, 0.8 s of
 * processor time in all; from the third portrait on those that count are compiled all the same
 */
const RUN_BEFORE_OPTIMIZING = 400_000_000

/**
 * How much of a function of JavaScript runs, in bytes of its bytecode, before it is compiled anew for speed.
 * @tuned in turns on one portrait and on twelve: by Node 20's own 67,584, half of the processor time of a first portrait goes into compiling
 * what twelve make little use of; they take 7.3 s with six times as much, where they took 8.6 (the least of three turns), and as long with 22 times as much.
 * By that, 2,500 files of which no pixel is looked at take 5.2 s where they took 5.8 with six times as much, and no less with 90 times as much
 */
const RUN_BEFORE_COMPILING = 1_500_000

/** Node 20's own. @source `node --v8-options` */
const RUN_BEFORE_COMPILING_AS_USUAL = 67_584

/** V8 of Node 20. Later ones compile in three steps, count calls instead, and know no such setting. */
const COUNTS_BYTES = process.versions.v8.startsWith('11.')

/** How many ask at once that JavaScript be compiled late. */
let asking = 0

/**
 * Has WebAssembly checked and compiled function by function when each is first called: of the networks' runtime most is never called. It, and
 * JavaScript, is compiled anew for speed only when it has run for long, since a check of a few portraits ends before that pays. Holds for all
 * threads of the process, and for modules that are compiled afterwards.
 */
export function compileWhatRuns(): void {
  setFlagsFromString('--wasm-lazy-compilation')
  setFlagsFromString('--wasm-lazy-validation')
  setFlagsFromString(`--wasm-tiering-budget=${RUN_BEFORE_OPTIMIZING}`)
  compileLate()
}

/**
 * Has JavaScript compiled anew for speed only when it has run for long, until whoever asked for it is done: each calls
 * {@link compileAsUsual} once.
 */
export function compileLate(): void {
  asking++
  if (COUNTS_BYTES) setFlagsFromString(`--interrupt-budget=${RUN_BEFORE_COMPILING}`)
}

/**
 * JavaScript as V8 does it by itself, once nobody asks for anything else: other code of the process, such as whatever calls this as a library, runs
 * for long.
 */
export function compileAsUsual(): void {
  asking--
  if (COUNTS_BYTES && asking === 0) setFlagsFromString(`--interrupt-budget=${RUN_BEFORE_COMPILING_AS_USUAL}`)
}
