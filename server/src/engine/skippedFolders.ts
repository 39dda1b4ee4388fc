/** Names of folders that hold no coach's files, and may hold very many others. */
export const SKIPPED_FOLDERS: ReadonlySet<string> = new Set(['node_modules', '.git', '.hg', '.svn']);
