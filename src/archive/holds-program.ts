/**
 * First bytes of programs. "MZ" alone may begin a text; programs have zeros soon after.
 * @source ELF: System V ABI, "ELF Identification"; Mach-O: Apple, mach-o/loader.h and fat.h; #!: POSIX.1-2017, sh, rationale
 */
const MAGIC = ['7f454c46', 'feedface', 'feedfacf', 'cefaedfe', 'cffaedfe', 'cafebabe', '2321']
const DOS = Buffer.from('MZ')

/** Whether the beginning of a file, at least its first 64 bytes, is that of a program or a script. */
export function holdsProgram(head: Buffer): boolean {
  if (MAGIC.some((magic) => head.subarray(0, magic.length / 2).toString('hex') === magic)) return true
  return head.subarray(0, 2).equals(DOS) && head.subarray(0, 64).includes(0)
}
