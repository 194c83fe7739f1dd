import { defineConfig } from 'vitest/config'
import { SlowestFirst } from './tests/slowest-first.ts'

/** The everyday run: every rule, every command and the outside checks, in some minutes. */
export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/long/**'],
    globalSetup: 'tests/outside/temporary.ts',
    // Measuring is what takes the time: every core.
    maxWorkers: '100%',
    // Test files share what a process has loaded: the face networks and the modules take a second each time.
    isolate: false,
    sequence: { sequencer: SlowestFirst },
    // What takes this long has hung; a test that needs seconds may take minutes on a busy machine.
    testTimeout: 900_000,
    hookTimeout: 900_000,
    coverage: {
      provider: 'v8',
      include: ['src/**/*.ts'],
      reporter: ['text-summary', 'json-summary'],
      thresholds: { lines: 90 },
    },
  },
})
