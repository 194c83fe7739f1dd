import { doubtSentence } from '../rules/judging/doubts.ts'
import { asked } from '../text/quantity.ts'
import type { Reading } from './readings.ts'

export interface FileReading extends Reading {
  readonly file: string
}

/** A reading that has a value. */
export interface Known extends FileReading {
  readonly value: number
}

/**
 * What a band rests on: the range found, in how many, which of them are not sure, and what was left out and why.
 * @param unit written after numbers, such as " %"
 * @param kept what the band was made of
 * @param outliers how many were left out since they stand off the others
 * @param all of the files, those without a value too
 */
export function noteOf(
  unit: string,
  kept: readonly Known[],
  outliers: number,
  all: readonly FileReading[],
): string {
  const values = kept.map(({ value }) => value)
  const doubtful = kept.filter(({ doubts }) => doubts.length > 0)
  const widest = Math.max(...kept.map(({ error }) => error ?? 0))
  const unread = all.filter(({ value }) => value === null)
  return [
    `${asked(tenth(Math.min(...values)))} to ${asked(tenth(Math.max(...values)), unit)} in ${kept.length + outliers} of ${all.length}`,
    ...(outliers > 0 ? [`${outliers} left out as ${outliers === 1 ? 'an outlier' : 'outliers'}`] : []),
    ...(doubtful.length > 0 ? [`${doubtful.length} uncertain${why(doubtful)}`] : []),
    ...(widest > 0 ? [`good to ${asked(tenth(widest), unit)}`] : []),
    ...(unread.length > 0 ? [`${unread.length} could not be measured${why(unread)}`] : []),
  ].join(', ')
}

/** The doubts of several files in brackets, each once; nothing when none is told. */
export function why(readings: readonly FileReading[]): string {
  const doubts = [...new Set(readings.flatMap((reading) => reading.doubts))]
  return doubts.length === 0 ? '' : ` (${doubtSentence(doubts)})`
}

/** Parts of a unit that notes are rounded to. @choice tenths, the finest that the rules' own outputs show. */
const TENTHS = 10

function tenth(value: number): number {
  return Math.round(value * TENTHS) / TENTHS
}
