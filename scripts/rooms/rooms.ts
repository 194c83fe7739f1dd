import { readFileSync } from 'node:fs'
import { parse } from 'yaml'

/** A folder of src, what it is for, and what it leaves to others. */
export interface Room {
  /** Below src, with /; "." for src itself. */
  readonly folder: string
  readonly business: string
  readonly not: string
}

/** The folders from high to low; run in the repository's root. */
export function readRooms(): Room[] {
  return parse(readFileSync('src/rooms.yaml', 'utf8'))
}
