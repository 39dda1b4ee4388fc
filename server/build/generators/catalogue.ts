/** The built-in catalogue as a module, so that the engine has it without reading a file. */
export function generate(context: { read(path: string): string }): Record<string, string> {
  const text = context.read('seeds/movements.stave');
  return {
    'server/src/engine/catalogue.generated.ts': `// Made from seeds/movements.stave by npm run generate.\nexport const CATALOGUE_TEXT = ${JSON.stringify(text)};\n`,
  };
}
