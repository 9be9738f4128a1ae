// Compresses files for the wire. Standard input: JSON [[source, brotli target, gzip target], ...]
import { readFile, writeFile } from "node:fs/promises";
import { readFileSync } from "node:fs";
import { promisify } from "node:util";
import zlib from "node:zlib";

const brotli = promisify(zlib.brotliCompress);
const gzip = promisify(zlib.gzip);
await Promise.all(
  JSON.parse(readFileSync(0, "utf8")).map(async ([source, brotliTarget, gzipTarget]) => {
    const content = await readFile(source);
    const params = {
      [zlib.constants.BROTLI_PARAM_QUALITY]: 11,
      [zlib.constants.BROTLI_PARAM_LGWIN]: 24,
      [zlib.constants.BROTLI_PARAM_SIZE_HINT]: content.length,
    };
    await writeFile(brotliTarget, await brotli(content, { params }));
    await writeFile(gzipTarget, await gzip(content, { level: 9 }));
  }),
);
