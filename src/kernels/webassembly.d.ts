/** What of the standard (https://www.w3.org/TR/wasm-js-api-2/) is used; TypeScript declares it for browsers alone. */
declare namespace WebAssembly {
  class Module {
    constructor(bytes: Uint8Array)
  }
  class Instance {
    readonly exports: unknown
    constructor(module: Module, imports?: object)
  }
  interface Memory {
    readonly buffer: ArrayBuffer
  }
}
