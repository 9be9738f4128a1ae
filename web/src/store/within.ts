/** The store gave no answer in time: some browsers wait for a person, some never answer at all. */
export class Silent extends Error {}

/** Ask the store and wait so long for it [ms]. Whatever it does, throwing at once included, becomes a failed promise. */
export function within<T>(limit: number, ask: () => Promise<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    const late = setTimeout(() => reject(new Silent("the store does not answer")), limit);
    const asked = async () => ask();
    asked().then(resolve, reject).finally(() => clearTimeout(late));
  });
}
