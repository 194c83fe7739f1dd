import type { NetworkInterfaceInfo } from 'node:os'
import encodeQR from 'qr'

/**
 * An address of this machine by which others in the same network reach it: the first that is not loopback; null when there is
 * none. One that a home or office router gives (RFC 1918) goes before any other.
 */
export function networkAddress(interfaces: NodeJS.Dict<NetworkInterfaceInfo[]>): string | null {
  const addresses = Object.values(interfaces)
    .flatMap((all) => all ?? [])
    .flatMap(({ family, internal, address }) => (family === 'IPv4' && !internal ? [address] : []))
  return addresses.find(isPrivate) ?? addresses[0] ?? null
}

function isPrivate(address: string): boolean {
  return /^(?:10\.|192\.168\.|172\.(?:1[6-9]|2\d|3[01])\.)/.test(address)
}

/** An address as a QR code (ISO/IEC 18004) made of half blocks: two rows in each line of the terminal, dark on light. */
export function codeToScan(url: string): string {
  const rows = encodeQR(url, 'raw', { border: 2, ecc: 'medium' })
  const lines: string[] = []
  for (let y = 0; y < rows.length; y += 2) {
    const [upper = [], lower = []] = [rows[y], rows[y + 1]]
    lines.push(upper.map((dark, x) => BLOCKS[(dark ? 0 : 2) + (lower[x] ? 0 : 1)]).join(''))
  }
  return lines.join('\n')
}

/** By whether the upper and the lower half are light: terminals are dark, and codes are read as dark on light. */
const BLOCKS = [' ', '\u2584', '\u2580', '\u2588']

export const SHARING_WARNING =
  'Everyone in this network who has that address can open the page, and whoever can listen in on the network can see the pictures: they travel unencrypted. Share it in a network of your own, such as one that your phone opens, not in that of a hotel or an office, and stop with Ctrl+C.'
