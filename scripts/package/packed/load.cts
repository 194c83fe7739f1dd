/*
 * Loads the code of the package, which scripts/package/chunks.ts has put into files of CommonJS. V8 is handed what it made of the code
 * when the package was made (scripts/package/compiled.ts), if this is the same V8 on the same kind of machine by the same flags; it
 * checks that itself, and otherwise compiles as usual.
 */
const { readFileSync } = process.getBuiltinModule('node:fs')
const { join } = process.getBuiltinModule('node:path')
const { pathToFileURL } = process.getBuiltinModule('node:url')
const { constants, Script } = process.getBuiltinModule('node:vm')

/** V8 reads what it compiled in place where that starts at a multiple of so many bytes. */
const ALIGNED = 8
/** Chunks find what lies beside the code, and start threads, from here. */
const HERE = pathToFileURL(join(__dirname, 'load.js')).href

const scripts = new Map<string, InstanceType<typeof Script>>()
const loaded = new Map<string, { exports: object }>()

/** The exports of a chunk, which is run when it is first loaded. @throws Error when its file is missing */
function load(name: string): object {
  const known = loaded.get(name)
  if (known) return known.exports
  const module = { exports: {} }
  loaded.set(name, module)
  const needed = (id: string) => (id.startsWith('./') ? load(id.slice(2)) : require(id))
  script(name).runInThisContext()(module.exports, needed, module, __dirname, HERE)
  // Two getters stand before each export of a module, which each call from another chunk would go through. None gets another value later.
  module.exports = { ...module.exports, __esModule: true }
  return module.exports
}

/** Takes what V8 made of the chunks that a role most often runs, before any flag of V8 is set: it would not be taken any more. */
function takeCompiled(role: string): void {
  const { arch, platform, versions } = process
  let archive: Buffer
  try {
    archive = readFileSync(join(__dirname, 'compiled', `${role}-${platform}-${arch}-${versions.v8}.bin`))
  } catch {
    return
  }
  const end = archive.indexOf('\n')
  let at = aligned(end + 1)
  for (const [name, bytes] of JSON.parse(archive.toString('utf8', 0, end)) as [string, number][]) {
    if (script(name, archive.subarray(at, at + bytes)).cachedDataRejected) return
    at += aligned(bytes)
  }
}

function script(name: string, cachedData?: Buffer): InstanceType<typeof Script> {
  const known = scripts.get(name)
  if (known) return known
  const text = readFileSync(join(__dirname, 'code', name), 'utf8')
  const source = `(function(exports,require,module,__dirname,MODULE_URL){${text}\n})`
  // V8 keeps the name, which lines of a fault tell: not that of a folder on the machine where the package was made.
  const filename = `portrait-gate/code/${name}`
  // The library of threads imports what it runs.
  const importModuleDynamically = constants.USE_MAIN_CONTEXT_DEFAULT_LOADER
  const made = new Script(source, { filename, importModuleDynamically, ...(cachedData && { cachedData }) })
  scripts.set(name, made)
  return made
}

function aligned(bytes: number): number {
  return Math.ceil(bytes / ALIGNED) * ALIGNED
}

module.exports = { load, takeCompiled, scripts, aligned }
