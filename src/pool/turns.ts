/**
 * Works on one item after the other, on `atOnce` at a time.
 * @throws the signal's reason when it is aborted
 */
export async function takeTurns<T>(
  items: readonly T[],
  atOnce: number,
  signal: AbortSignal,
  work: (item: T) => Promise<void>,
): Promise<void> {
  let next = 0
  const run = async () => {
    while (next < items.length) {
      signal.throwIfAborted()
      await work(items[next++] as T)
    }
  }
  await Promise.all(Array.from({ length: Math.min(atOnce, items.length) }, run))
  signal.throwIfAborted()
}
