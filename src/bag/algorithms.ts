/** A checksum that a manifest may be made with. */
export interface Algorithm {
  /** As in the names of manifests: "sha512". */
  readonly name: string
  /** Digits of the checksum in hexadecimal. */
  readonly digits: number
  /** Whether another file with the same checksum can be made on purpose. @source RFC 6151 (MD5), RFC 6194 (SHA-1) */
  readonly isWeak: boolean
}

/** @source FIPS 180-4 and RFC 1321, digest lengths */
const ALGORITHMS: readonly Algorithm[] = [
  { name: 'md5', digits: 32, isWeak: true },
  { name: 'sha1', digits: 40, isWeak: true },
  { name: 'sha224', digits: 56, isWeak: false },
  { name: 'sha256', digits: 64, isWeak: false },
  { name: 'sha384', digits: 96, isWeak: false },
  { name: 'sha512', digits: 128, isWeak: false },
]

/** The algorithm that the name of a manifest means; null when it is unknown here. @param name as "sha512" or "SHA-512" */
export function algorithmOf(name: string): Algorithm | null {
  const plain = name.toLowerCase().replaceAll('-', '')
  return ALGORITHMS.find((one) => one.name === plain) ?? null
}
