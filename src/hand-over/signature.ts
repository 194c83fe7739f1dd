import { spawn } from 'node:child_process'
import { writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { ASIDE } from '../archive/unpack-aside.ts'
import { UsageError } from '../checking/usage-error.ts'
import { makeOwnFolder, type Processes } from '../files/own-folder.ts'

/**
 * What the signature is for, so that none made for something else counts (OpenSSH, PROTOCOL.sshsig: namespace).
 */
const NAMESPACE = 'portrait-delivery'

/** What a signature proves. */
export type Signature =
  /** Made with a key that is on the client's list, for this name. */
  | { readonly state: 'known'; readonly signer: string; readonly key: string }
  /** Right, but nobody said whose key it is. */
  | { readonly state: 'unknown-key'; readonly key: string }
  /** Not a signature over this bag. */
  | { readonly state: 'wrong'; readonly why: string }

/**
 * Signs with a key of OpenSSH, by the system's own `ssh-keygen`, which asks for the passphrase or the agent.
 * @param key path of the private key, or of the public one when an agent has the other
 * @throws UsageError
 */
export async function signed(data: Buffer, key: string): Promise<Buffer> {
  const { code, stdout, stderr } = await sshKeygen(['-Y', 'sign', '-f', key, '-n', NAMESPACE], data)
  if (code === 0 && stdout.includes('-----BEGIN SSH SIGNATURE-----')) return Buffer.from(stdout)
  throw new UsageError(
    `ssh-keygen could not sign with ${key}: ${lastLine(stderr) || `it ended with ${code}`}`,
  )
}

/**
 * Checks a signature by the system's own `ssh-keygen`.
 * @param signers a list of keys and whose they are (ssh-keygen(1), ALLOWED SIGNERS); null for none
 * @throws UsageError when ssh-keygen is not there
 */
export async function checkSignature(
  data: Buffer,
  signature: Buffer,
  signers: string | null,
  processes: Processes,
): Promise<Signature> {
  const own = await makeOwnFolder(tmpdir(), ASIDE, processes)
  try {
    const file = join(own.path, 'signature')
    await writeFile(file, signature)
    const plain = await sshKeygen(['-Y', 'check-novalidate', '-n', NAMESPACE, '-s', file], data)
    const key = /\b(SHA256:[A-Za-z0-9+/]{43})\b/.exec(plain.stdout + plain.stderr)?.[1]
    if (plain.code !== 0 || key === undefined)
      return { state: 'wrong', why: lastLine(plain.stderr) || lastLine(plain.stdout) || 'it does not fit' }
    if (signers === null) return { state: 'unknown-key', key }
    const list = join(own.path, 'signers')
    await writeFile(list, signers)
    const named = await sshKeygen(['-Y', 'find-principals', '-s', file, '-f', list], data)
    const signer = named.stdout.split('\n')[0]?.split(',')[0] ?? ''
    if (named.code !== 0 || signer === '') return { state: 'unknown-key', key }
    const args = ['-Y', 'verify', '-f', list, '-I', signer, '-n', NAMESPACE, '-s', file]
    const { code, stderr, stdout } = await sshKeygen(args, data)
    // The list may allow a key for some time or for other things only.
    return code === 0
      ? { state: 'known', signer, key }
      : { state: 'wrong', why: lastLine(stderr) || lastLine(stdout) || 'the list of keys refuses it' }
  } finally {
    await own.remove()
  }
}

function lastLine(text: string): string {
  return text.trim().split('\n').at(-1)?.trim() ?? ''
}

interface Ended {
  readonly code: number | null
  readonly stdout: string
  readonly stderr: string
}

async function sshKeygen(args: readonly string[], input: Buffer): Promise<Ended> {
  const child = spawn('ssh-keygen', args, { stdio: ['pipe', 'pipe', 'pipe'] })
  const texts = { stdout: '', stderr: '' }
  child.stdout.on('data', (data) => (texts.stdout += data))
  child.stderr.on('data', (data) => (texts.stderr += data))
  // It may end before it has read all; its code tells.
  child.stdin.on('error', () => {})
  child.stdin.end(input)
  return new Promise((resolve, reject) => {
    child.on('error', (error) =>
      reject(
        new UsageError(
          `ssh-keygen, which signs and checks, could not be started (${error.message}). Install OpenSSH.`,
        ),
      ),
    )
    child.on('close', (code) => resolve({ code, ...texts }))
  })
}
