/*
 * Required by Node before all else when scripts/package/compiled.ts runs the package: writes down what V8 made of the code, of one role, when
 * the main thread ends, or a worker has done its task.
 */
const { writeFileSync } = process.getBuiltinModule('node:fs')
const { Script } = process.getBuiltinModule('node:vm')
const { join } = process.getBuiltinModule('node:path')
const { MessagePort, threadId } = process.getBuiltinModule('node:worker_threads')
const v8 = process.getBuiltinModule('node:v8')

const { RECORDED_PACKAGE: folder = '', RECORDED_ROLE: role = '' } = process.env
const { scripts, aligned } = require(join(folder, 'load.cjs')) as {
  scripts: ReadonlyMap<string, { createCachedData(): Buffer }>
  aligned(bytes: number): number
}

const set = v8.setFlagsFromString

if (role === 'main' && threadId === 0) {
  // What the main thread starts by is what it must be recorded by. One flag is needed, and taken back.
  v8.setFlagsFromString = (flag) => (flag === '--expose-gc' ? set(flag) : undefined)
  process.on('exit', () => {
    set('--no-expose-gc')
    write()
  })
}
// The first worker, before it tells that it is done: it may be ended at once.
if (role === 'worker' && threadId === 1) {
  // Or garbage collection takes what ran only once, such as a whole module when it was loaded.
  const kept: unknown[] = []
  const runOnce = Script.prototype.runInThisContext
  Script.prototype.runInThisContext = function (...args) {
    const made = runOnce.apply(this, args)
    kept.push(made)
    return made
  }
  set('--no-flush-bytecode')
  const post = MessagePort.prototype.postMessage
  MessagePort.prototype.postMessage = function (...args: Parameters<typeof post>) {
    set('--flush-bytecode')
    write()
    set('--no-flush-bytecode')
    return post.apply(this, args)
  }
}

function write(): void {
  const made = [...scripts].map(([name, script]) => ({ name, data: script.createCachedData() }))
  const head = `${JSON.stringify(made.map(({ name, data }) => [name, data.length]))}\n`
  const parts = [Buffer.from(head), ...made.map(({ data }) => data)]
  const padded = parts.map((part) => Buffer.concat([part], aligned(part.length)))
  const { arch, platform, versions } = process
  const place = join(folder, 'compiled', `${role}-${platform}-${arch}-${versions.v8}.bin`)
  writeFileSync(place, Buffer.concat(padded))
}
