import { measuringConstants } from './constants/measuring-code.ts'

/** Prints each number of the measuring code that is not accounted for, and fails when there is one; run in the repository's root. */
const { problems } = measuringConstants()
for (const { path, line, text } of problems) process.stderr.write(`${path}:${line}: ${text}\n`)
if (problems.length > 0) process.exitCode = 1
