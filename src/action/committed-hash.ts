import { readHashed } from '../measure/file/read-file.ts'

/*
 * Git LFS, docs/spec.md, version 1: what stands in place of a file names the hash of its content and its size. Git LFS
 * takes nothing else for a pointer (lfs/pointer.go, decodeKVData): a file that only resembles one stays as it is in a
 * checkout. With an extension, the content would be changed on its way out.
 */
const POINTER =
  /^version https:\/\/git-lfs\.github\.com\/spec\/v1\n+oid sha256:([0-9a-f]{64})\n+size ([0-9]{1,15})\s*$/
const LONGEST_POINTER = 1024

/** What a pointer of Git LFS says of its content. */
export interface Pointed {
  /** SHA-256, hex. */
  readonly hash: string
  /** Bytes. */
  readonly size: number
}

/** What a file's bytes say as a pointer of Git LFS; null when they are none. */
export function pointed(data: Buffer): Pointed | null {
  if (data.length > LONGEST_POINTER) return null
  const [, hash, size] = POINTER.exec(data.toString('latin1')) ?? []
  return hash === undefined ? null : { hash, size: Number(size) }
}

/** SHA-256 (hex) of a file's content, or of the content that a pointer of Git LFS stands for; null when it can't be read. */
export async function committedHash(path: string): Promise<string | null> {
  const content = await readHashed(path)
  if (!('data' in content)) return null
  return pointed(content.data)?.hash ?? content.sha256
}
