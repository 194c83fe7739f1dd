import { cp, mkdir, mkdtemp, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { extname, join } from 'node:path'
import { roundTrip } from '../tests/long/hand-over/round-trip.ts'

/**
 * Takes photographs from a folder on the way from masters to a website, with faults planted at each step, and prints what was planted, found and
 * told falsely. Their names are numbers of as many digits each, with one ending. Run in the repository's root when it is built.
 */
const [from = '', few = '0'] = process.argv.slice(2)
const names = (await readdir(from)).filter((name) => /^\d+\.(?:jpe?g|png|tiff?)$/i.test(name)).sort()
const all = Number(few) > 0 ? names.slice(0, Number(few)) : names
const last = all.pop()
if (last === undefined || all.length < 4)
  throw new Error(`${from} holds too few pictures that are named by numbers.`)
const ending = extname(last).slice(1)
const folder = await mkdtemp(join(tmpdir(), 'round-trip-'))
try {
  await mkdir(join(folder, 'masters'))
  for (const name of all) await cp(join(from, name), join(folder, 'masters', name))
  const people = all.map((name) => name.slice(0, -ending.length - 1))
  let [planted, found, falsely] = [0, 0, 0]
  for (const one of await roundTrip({ folder, ending, people, other: join(from, last) })) {
    const missed = one.planted.filter((fault) => !one.told.includes(fault))
    const untrue = one.told.filter((fault) => !one.planted.includes(fault))
    planted += one.planted.length
    found += one.planted.length - missed.length
    falsely += untrue.length
    process.stdout.write(`${one.step}: ${one.planted.length} planted\n`)
    for (const fault of missed) process.stdout.write(`  missed: ${fault}\n`)
    for (const fault of untrue) process.stdout.write(`  not planted: ${fault}\n`)
  }
  process.stdout.write(
    `${people.length} masters; ${planted} planted, ${found} found, ${falsely} told falsely\n`,
  )
} finally {
  await rm(folder, { recursive: true, force: true })
}
