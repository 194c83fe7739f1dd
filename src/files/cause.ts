/** Why a file could not be used, in the system's own word where it has one: "ENOENT". */
export function causeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : String(error)
}
