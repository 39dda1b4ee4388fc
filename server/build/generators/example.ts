interface Context {
  read(file: string): string;
}

/** The draft that the extension opens as an example is the sample that can be checked by hand. */
export function generate({ read }: Context): Record<string, string> {
  return { 'client/media/example.stave': read('samples/winter/winter.stave') };
}
