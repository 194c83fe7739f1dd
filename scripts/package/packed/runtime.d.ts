/** What scripts/package/bundle.ts makes of the script. */
declare module '@litertjs/core/wasm/litert_wasm_compat_internal.js' {
  const factory: unknown
  export default factory
}
