import { readHashed } from '../measure/file/read-file.ts'

// Git LFS, docs/spec.md, version 1: the pointer that stands in place of a file names the hash of its content.
const POINTER = /^version https:\/\/git-lfs\.github\.com\/spec\/v1\n(?:.*\n)?oid sha256:([0-9a-f]{64})\n/s
const LONGEST_POINTER = 1024

/** SHA-256 (hex) of a file's content, or of the content that a pointer of Git LFS stands for; null when it can't be read. */
export async function committedHash(path: string): Promise<string | null> {
  const content = await readHashed(path)
  if (!('data' in content)) return null
  const pointed =
    content.data.length <= LONGEST_POINTER ? POINTER.exec(content.data.toString('latin1')) : null
  return pointed?.[1] ?? content.sha256
}
