/** Runs `work` on all items, at most `limit` at once; the results keep the items' order. */
export async function inParallel<Item, Result>(
  items: readonly Item[],
  limit: number,
  work: (item: Item) => Promise<Result>,
): Promise<Result[]> {
  const results: Result[] = [];
  const waiting = items.entries();
  const worker = async (): Promise<void> => {
    for (const [index, item] of waiting) results[index] = await work(item);
  };
  await Promise.all(Array.from({ length: Math.min(limit, items.length) }, worker));
  return results;
}
