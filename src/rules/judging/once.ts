/** What follows from a rule's options alone, found once for each: thousands of files are held to the same, and a spec is frozen. */
export function once<Options extends object, Found>(
  find: (options: Options) => Found,
): (options: Options) => Found {
  const found = new WeakMap<Options, Found>()
  return (options) => {
    const known = found.get(options) ?? find(options)
    found.set(options, known)
    return known
  }
}
