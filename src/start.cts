#!/usr/bin/env node
/*
 * Starts the command. CommonJS: reading an ES module already starts libuv's pool of threads, whose size can't be changed afterwards
 * (https://docs.libuv.org/en/v1.x/threadpool.html). Pictures are decoded there, and every thread that ever decoded one keeps memory: more
 * threads than cores take more of it and decode no faster.
 */
const { availableParallelism } = process.getBuiltinModule('node:os')
process.env.UV_THREADPOOL_SIZE ??= String(Math.max(2, availableParallelism()))
import('./cli.ts')
