import { defineConfig } from 'vitest/config'
import { SlowestFirst } from './tests/slowest-first.ts'

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: 'tests/outside/temporary.ts',
    // Measuring is what takes the time: every core.
    maxWorkers: '100%',
    sequence: { sequencer: SlowestFirst },
    testTimeout: 120_000,
    hookTimeout: 180_000,
    coverage: {
      provider: 'v8',
      include: ['src/**/*.ts'],
      reporter: ['text-summary', 'json-summary'],
      thresholds: { lines: 90 },
    },
  },
})
