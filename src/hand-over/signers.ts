import { UsageError } from '../checking/usage-error.ts'
import { readSourceText } from '../files/source-text.ts'

const FORM = 'a name and the key of the .pub file, as in: studio@kettle.example ssh-ed25519 AAAA...'

/** How keys of OpenSSH begin. @source sshd(8), AUTHORIZED_KEYS FILE FORMAT: the key types */
const KEY = /(?:^|\s)((?:sk-)?(?:ssh|ecdsa)-[\w@.-]+)\s+AAAA\S/

/**
 * Reads a list of keys and whose they are, in the form of ssh-keygen(1), ALLOWED SIGNERS.
 * @param path absolute
 * @param file as its user named it
 * @throws UsageError when it can't be read, or a line of it is no such entry
 */
export async function readSigners(path: string, file: string): Promise<string> {
  const read = await readSourceText(path)
  if ('problem' in read) throw new UsageError(`The list of keys ${file} ${read.problem}`)
  const lines = read.text.split(/\r?\n/)
  const isEntry = (line: string) => line.trim() !== '' && !line.trimStart().startsWith('#')
  if (!lines.some(isEntry)) throw new UsageError(`The list of keys ${file} is empty; each line is ${FORM}`)
  for (const [index, line] of lines.entries()) {
    if (!isEntry(line)) continue
    const key = KEY.exec(line.trim())
    const what = key?.index === 0 ? 'begins with the key and does not say whose it is' : 'holds no key'
    if (!key || key.index === 0)
      throw new UsageError(`The list of keys ${file}, line ${index + 1}, ${what}; each line is ${FORM}`)
  }
  return lines.join('\n')
}
