import { createHash } from 'node:crypto'
import { join } from 'node:path'
import { type BagState, validateBag } from '../bag/validate.ts'
import { SIGNATURE, SIGNED } from '../bag/write-bag.ts'
import type { Host } from '../checking/host.ts'
import { readAtMost } from '../files/read-at-most.ts'
import type { BagReceived } from './receipt.ts'
import { checkSignature } from './signature.ts'

/** Most bytes of the list that is signed, and of the signature. @choice both are short: 200 bytes for each tag file */
const MOST = 4 * 1024 * 1024

/**
 * Reads a bag whole, and checks its signature.
 * @param folder absolute
 * @param beside names of what lies beside it
 * @param signers the list of keys and whose they are; null for none
 * @throws UsageError when it is signed and ssh-keygen is not there
 */
export async function checkBag(
  { folder, beside }: { folder: string; beside: readonly string[] },
  signers: string | null,
  host: Host,
): Promise<BagReceived> {
  const state = withBeside(await validateBag(folder, host.signal), beside)
  const [list, signature] = [await bytesOf(folder, SIGNED), await bytesOf(folder, SIGNATURE)]
  const checked = list && signature && (await checkSignature(list, signature, signers, host.processes))
  return {
    ...told(state),
    checksum: list && createHash('sha512').update(list).digest('hex'),
    signature: checked && {
      state: checked.state,
      signer: 'signer' in checked ? checked.signer : null,
      key: 'key' in checked ? checked.key : null,
    },
  }
}

/** A bag is sent alone: what lies beside it, no list covers. */
function withBeside(state: BagState, beside: readonly string[]): BagState {
  if (beside.length === 0) return state
  const message = 'It lies beside the bag, where no list covers it: delete it, or ask the sender.'
  const more = beside.map((name) => ({ fault: 'unlisted' as const, file: `../${name}`, message }))
  return { ...state, complete: false, valid: false, problems: [...state.problems, ...more] }
}

function told({ valid, complete, problems, warnings, version, info }: BagState) {
  return {
    ...{ valid, complete, version },
    problems: problems.map((one) => ({ ...one })),
    warnings: warnings.map((one) => ({ ...one })),
    info: info.map(([label, value]): [string, string] => [label, value]),
  }
}

async function bytesOf(folder: string, file: string): Promise<Buffer | null> {
  const read = await readAtMost(join(folder, file), MOST).catch(() => null)
  return read && 'data' in read ? read.data : null
}

/** Why a bag is not taken as it is, in a sentence; null when it is. @param isAsked whether a list of keys was given */
export function whyNotAccepted(bag: BagReceived | null, isAsked: boolean): string | null {
  if (bag && !bag.valid) return 'It is not whole, or was changed after it was packed.'
  // The standard lets it pass; nobody packs so.
  if (bag?.warnings.some(({ fault }) => fault === 'lists'))
    return "Its lists don't agree: one was cut off or changed."
  if (bag?.signature?.state === 'wrong')
    return 'Its signature is not over this bag, or the list of keys refuses it.'
  if (isAsked && bag?.signature?.state !== 'known')
    return bag?.signature
      ? `It is signed with a key that is not on your list (${bag.signature.key}).`
      : 'It is not signed, and you named a list of keys.'
  return null
}
