/** There are no files in a web worker: fonts are handed over as bytes. */
export function readFileSync(file: string): never {
  throw new Error(`no file can be read here: ${file}`);
}
