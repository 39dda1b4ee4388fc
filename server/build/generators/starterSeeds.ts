/** The kits and programs to start from, as a module: the server of a browser has no files of its own. */
export function generate(context: { read(path: string): string }): Record<string, string> {
  const constant = (name: string, file: string) =>
    `export const ${name} = ${JSON.stringify(context.read(file))};\n`;
  return {
    'server/src/engine/starter/seeds.generated.ts': [
      '// Made from seeds/kits.stave and seeds/programs.stave by npm run generate.\n',
      constant('KITS_TEXT', 'seeds/kits.stave'),
      constant('PROGRAMS_TEXT', 'seeds/programs.stave'),
    ].join(''),
  };
}
