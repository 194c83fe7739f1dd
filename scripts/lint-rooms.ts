import { crowding } from './rooms/crowding.ts'
import { readRooms } from './rooms/rooms.ts'

/** Prints what is wrong with the folders of src, and fails when anything is; run in the repository's root. */
const problems = crowding('.', readRooms())
for (const problem of problems) process.stderr.write(`${problem}\n`)
if (problems.length > 0) process.exitCode = 1
