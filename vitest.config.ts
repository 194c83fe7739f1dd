import { availableParallelism } from 'node:os'
import { defineConfig } from 'vitest/config'
import { SlowestFirst } from './tests/slowest-first.ts'

/** The everyday run: every rule, every command and the outside checks, in some minutes. */
export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/long/**'],
    globalSetup: 'tests/outside/temporary.ts',
    // Measuring takes most of the time, and a quarter of it goes by waiting for processes that tests start: half as many again
    // as there are cores.
    maxWorkers: Math.ceil(1.5 * availableParallelism()),
    // Test files share what a process has loaded: the face networks and the modules take a second each time.
    isolate: false,
    sequence: { sequencer: SlowestFirst },
    // What takes this long has hung; a test that needs seconds may take minutes on a busy machine.
    testTimeout: 900_000,
    hookTimeout: 900_000,
    coverage: {
      provider: 'v8',
      include: ['src/**/*.ts'],
      // Compiled to WebAssembly: nothing of it runs as JavaScript. The tests compare each kernel with its plain twin.
      exclude: ['src/kernels/assembly/**'],
      reporter: ['text-summary', 'json-summary'],
      thresholds: { lines: 94 },
    },
  },
})
