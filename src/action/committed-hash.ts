import { readHashed } from '../measure/file/read-file.ts'

// Git LFS, docs/spec.md, version 1: the pointer that stands in place of a file names the hash of its content.
const POINTER = /^version https:\/\/git-lfs\.github\.com\/spec\/v1\n(?:.*\n)?oid sha256:([0-9a-f]{64})\n/s
const LONGEST_POINTER = 1024

/** The hash (hex) of the content that a file's bytes stand for as a pointer of Git LFS; null when they are no pointer. */
export function pointedHash(data: Buffer): string | null {
  if (data.length > LONGEST_POINTER) return null
  return POINTER.exec(data.toString('latin1'))?.[1] ?? null
}

/** SHA-256 (hex) of a file's content, or of the content that a pointer of Git LFS stands for; null when it can't be read. */
export async function committedHash(path: string): Promise<string | null> {
  const content = await readHashed(path)
  if (!('data' in content)) return null
  return pointedHash(content.data) ?? content.sha256
}
