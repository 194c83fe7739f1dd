import { setFlagsFromString } from 'node:v8'

/**
 * How much of a function of WebAssembly runs, in bytes of code or so, before it is compiled anew for speed.
 * @tuned in pairs on one portrait and on twelve: V8's own 1.8 million has functions compiled that one portrait runs a few times, 0.8 s of
 * processor time in all; from the third portrait on those that count are compiled all the same
 */
const RUN_BEFORE_OPTIMIZING = 400_000_000

/**
 * Has WebAssembly compiled function by function when each is first called, and anew for speed only when it has run for long: of the networks'
 * runtime most is never called, and a check of a few portraits ends before its compilation. Holds for all threads of the process, and for
 * modules that are compiled afterwards.
 */
export function compileWhatRuns(): void {
  setFlagsFromString('--wasm-lazy-compilation')
  setFlagsFromString(`--wasm-tiering-budget=${RUN_BEFORE_OPTIMIZING}`)
}
