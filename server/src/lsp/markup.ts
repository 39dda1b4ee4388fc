/** Markdown as a person would read it aloud, for clients that show plain text only. */
export function withoutMarkup(markdown: string): string {
  return markdown.replace(/\\([\\`*_{}[\]()#+.!|<>-])|[*`]/g, '$1');
}
