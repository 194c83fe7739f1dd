import { lstat } from 'node:fs/promises'
import { join } from 'node:path'
import { readAtMost } from '../files/read-at-most.ts'
import { count } from '../text/quantity.ts'
import { BAG_INFO, type BagInfo, infoValue, readBagInfo } from './bag-info.ts'
import { checkContent } from './check-content.ts'
import { DECLARATION, type Declaration, readDeclaration } from './declaration.ts'
import { FETCH, readFetchList } from './fetch-list.ts'
import { type Listing, listFiles } from './listing.ts'
import { type Manifest, manifestName, readManifest } from './manifest.ts'
import { FileFinder, isSystemFile, matchFiles } from './match-files.ts'
import { PAYLOAD } from './paths.ts'
import { type BagProblem, Findings } from './problem.ts'
import { tagLines, tagText } from './tag-text.ts'

/** Most bytes of a tag file that is read as text. @choice 200 bytes for each of 100,000 files, three times */
const MOST_TEXT = 64 * 1024 * 1024

/** What is known of a bag after every file of it was read. */
export interface BagState {
  /** Everything is there that should be, and nothing else (RFC 8493, 3). */
  readonly complete: boolean
  /** Complete, and every file is the one that was packed. */
  readonly valid: boolean
  readonly problems: readonly BagProblem[]
  readonly warnings: readonly BagProblem[]
  /** The version of BagIt; null when it is not told. */
  readonly version: string | null
  readonly info: BagInfo
  /** Paths in the payload, from the bag's folder on. */
  readonly payload: readonly string[]
}

/** Whether a folder is a bag, a damaged one too. @param folder absolute */
export async function isBag(folder: string): Promise<boolean> {
  const there = (name: string) =>
    lstat(join(folder, name)).then(
      () => true,
      () => false,
    )
  if (await there(DECLARATION)) return true
  return (await there(PAYLOAD)) && (await Promise.all(MANIFESTS.map(there))).some(Boolean)
}

const MANIFESTS = ['md5', 'sha1', 'sha256', 'sha512'].map((name) => `manifest-${name}.txt`)

/**
 * Reads a bag whole and says whether it is complete and valid: version 1.0 by RFC 8493, older ones by its drafts.
 * @param folder absolute
 * @throws the signal's reason when it is aborted
 */
export async function validateBag(folder: string, signal: AbortSignal): Promise<BagState> {
  const findings = new Findings()
  const listing = await listFiles(folder, findings, signal)
  const payload = [...listing.keys()].filter((path) => path.startsWith(PAYLOAD))
  const read = (file: string) => readTag(folder, file, findings)
  const bytes = listing.has(DECLARATION) ? await read(DECLARATION) : null
  if (!listing.has(DECLARATION))
    findings.problem(
      'missing',
      DECLARATION,
      'Every bag has this file. Ask the sender for the bag as it was made.',
    )
  const declaration = bytes && readDeclaration(bytes, findings)
  const state = { version: declaration?.version ?? null, payload }
  const info = declaration ? await check({ folder, listing, declaration, read, signal }, findings) : []
  const { problems, warnings } = findings
  const complete = problems.every(({ fault }) => fault === 'changed')
  return { ...state, info, complete, valid: problems.length === 0, problems, warnings }
}

interface Bag {
  readonly folder: string
  readonly listing: Listing
  readonly declaration: Declaration
  readonly read: (file: string) => Promise<Buffer | null>
  readonly signal: AbortSignal
}

async function check(bag: Bag, findings: Findings): Promise<BagInfo> {
  const { folder, listing, declaration, signal } = bag
  const text = async (file: string) => {
    const bytes = listing.has(file) ? await bag.read(file) : null
    const decoded = bytes && tagText(bytes, declaration.encoding)
    if (bytes && decoded === null)
      findings.problem(
        'line',
        file,
        `It is not in ${declaration.encoding}, the encoding that ${DECLARATION} states.`,
      )
    return decoded
  }
  const fetchText = await text(FETCH)
  const toFetch = fetchText === null ? new Set<string>() : readFetchList(fetchText, declaration, findings)
  const manifests = await readManifests(bag, text, findings)
  const finder = new FileFinder(listing)
  const context = { finder, toFetch, isFinal: declaration.isFinal }
  const matched = manifests.map((manifest) => ({ manifest, files: matchFiles(manifest, context, findings) }))
  const payload = matched.filter(({ manifest }) => manifestName(manifest.file)?.kind === 'payload')
  tellUnlisted(listing, payload, declaration, findings)
  tellUncovered(listing, matched, findings)
  const waiting = [...toFetch].filter((path) => finder.find(path) === null)
  if (waiting.length > 0)
    findings.problem(
      'to-fetch',
      waiting[0] ?? null,
      `${count(waiting.length, 'file')} of the bag are still to be downloaded, which this program never does. Ask the sender for the whole bag.`,
    )
  const infoText = await text(BAG_INFO)
  const { info, unread } = readBagInfo(tagLines(infoText ?? ''), declaration.isFinal)
  for (const line of unread) findings.problem('line', BAG_INFO, `Line ${line} is not "Label: value".`)
  checkOxum(info, listing, findings)
  await checkContent({ folder, matched, signal }, findings)
  return info
}

async function readTag(folder: string, file: string, findings: Findings): Promise<Buffer | null> {
  const read = await readAtMost(join(folder, file), MOST_TEXT).catch(() => null)
  if (read && 'data' in read) return read.data
  const why = read?.refused === 'too-large' ? `is over ${MOST_TEXT / 1024 / 1024} MiB` : 'could not be read'
  findings.problem('unreadable', file, `The file ${why}.`)
  return null
}

async function readManifests(
  { listing, declaration }: Bag,
  text: (file: string) => Promise<string | null>,
  findings: Findings,
): Promise<Manifest[]> {
  const manifests: Manifest[] = []
  const names = [...listing.keys()].filter((file) => manifestName(file) !== null)
  for (const file of names) {
    const content = await text(file)
    const manifest = content === null ? null : readManifest(file, content, declaration, findings)
    if (manifest) manifests.push(manifest)
    else if (content !== null)
      findings.warning('algorithm', file, 'Its kind of checksum is unknown here; the list was left out.')
  }
  const payload = manifests.filter(({ file }) => manifestName(file)?.kind === 'payload')
  if (payload.length === 0)
    findings.problem('structure', null, 'No list of the files can be read (manifest-sha512.txt or the like).')
  else if (payload.every(({ algorithm }) => algorithm.isWeak))
    findings.warning(
      'algorithm',
      null,
      'The checksums are MD5 or SHA-1: they show damage, but somebody could swap a file on purpose and keep them.',
    )
  return manifests
}

type Matched = readonly { readonly manifest: Manifest; readonly files: ReadonlyMap<string, string> }[]

/** In version 1.0 every manifest lists every file of the payload; in drafts one of them does (RFC 8493, 3 and Appendix A). */
function tellUnlisted(listing: Listing, payload: Matched, { isFinal }: Declaration, findings: Findings) {
  for (const path of listing.keys()) {
    if (!path.startsWith(PAYLOAD)) continue
    const without = payload.filter(({ files }) => !files.has(path)).map(({ manifest }) => manifest.file)
    if (without.length === 0 || (!isFinal && without.length < payload.length)) continue
    const origin = isSystemFile(path)
      ? 'An operating system put it there when somebody opened the folder: delete it.'
      : 'It was not packed by the sender: delete it, or ask the sender.'
    findings.problem('unlisted', path, `It is not listed in ${without.join(' and ')}. ${origin}`)
  }
}

/** Tag files that no tag manifest covers may have been changed by anybody: allowed, but to be told. */
function tellUncovered(listing: Listing, matched: Matched, findings: Findings) {
  const tags = matched.filter(({ manifest }) => manifestName(manifest.file)?.kind === 'tag')
  if (tags.length === 0)
    findings.warning(
      'unlisted',
      null,
      "There is no tag manifest: whether the lists themselves were changed can't be known.",
    )
  for (const path of listing.keys()) {
    if (path.startsWith(PAYLOAD) || manifestName(path)?.kind === 'tag' || isSignature(path)) continue
    const without = tags.filter(({ files }) => !files.has(path)).map(({ manifest }) => manifest.file)
    if (without.length > 0 && without.length < tags.length)
      findings.warning(
        'lists',
        path,
        `${without.join(' and ')} does not list it, though another list does: lines were lost.`,
      )
    if (tags.length > 0 && !tags.some(({ files }) => files.has(path)))
      findings.warning(
        'unlisted',
        path,
        'No tag manifest lists it: it may have been added or changed by anybody.',
      )
  }
}

/** A signature over a tag manifest can't be listed in it. */
function isSignature(path: string): boolean {
  return path.endsWith('.sig') && manifestName(path.slice(0, -'.sig'.length))?.kind === 'tag'
}

/** Payload-Oxum is bytes, a dot and the number of files (RFC 8493, 2.2.2). */
function checkOxum(info: BagInfo, listing: Listing, findings: Findings) {
  const stated = infoValue(info, 'Payload-Oxum')
  if (stated === null) return
  const sizes = [...listing].filter(([path]) => path.startsWith(PAYLOAD)).map(([, size]) => size)
  const found = `${sizes.reduce((sum, size) => sum + size, 0)}.${sizes.length}`
  if (stated === found) return
  const message = `It states ${oxumWords(stated)}, and there are ${oxumWords(found)}. Something was lost, added or cut off.`
  // Of a file that may be missing, nobody knows the size.
  if (findings.warnings.some(({ fault }) => fault === 'missing')) findings.warning('oxum', BAG_INFO, message)
  else findings.problem('oxum', BAG_INFO, message)
}

function oxumWords(oxum: string): string {
  const [bytes = '', files = ''] = oxum.split('.')
  return /^\d+\.\d+$/.test(oxum) ? `${files} files of ${bytes} bytes` : `"${oxum}"`
}
