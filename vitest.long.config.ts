import { defineConfig } from 'vitest/config'
import everyday from './vitest.config.ts'

/** The long run: whole sets of cases, and campaigns that spoil files and kill runs. */
export default defineConfig({
  test: {
    ...everyday.test,
    include: ['tests/long/**/*.test.ts', 'tests/**/*.set.test.ts'],
    exclude: [],
    env: { TEST_SETS: 'whole' },
  },
})
