// A folder that lies on no disk: files in the memory of the browser, as a repository that was never cloned has them.
// What it holds at first comes from the runner.
const vscode = require('vscode');

const { FileSystemError, FileType, FileChangeType } = vscode;

class Memory {
  // Folders and files by path; a folder is null.
  entries = new Map([['/', null]]);
  changed = new vscode.EventEmitter();
  onDidChangeFile = this.changed.event;

  add(path, bytes) {
    for (let at = path.indexOf('/', 1); at > 0; at = path.indexOf('/', at + 1))
      this.entries.set(path.slice(0, at), null);
    this.entries.set(path, bytes);
  }

  below(path) {
    const start = path === '/' ? '/' : `${path}/`;
    return [...this.entries.keys()].filter((entry) => entry.startsWith(start));
  }

  tell(type, uri) {
    this.changed.fire([{ type, uri }]);
  }

  watch() {
    return { dispose() {} };
  }

  stat(uri) {
    const bytes = this.entries.get(uri.path);
    if (bytes === undefined) throw FileSystemError.FileNotFound(uri);
    return {
      type: bytes ? FileType.File : FileType.Directory,
      ctime: 0,
      mtime: bytes?.mtime ?? 0,
      size: bytes?.length ?? 0,
    };
  }

  readDirectory(uri) {
    const start = uri.path === '/' ? 1 : uri.path.length + 1;
    return this.below(uri.path)
      .filter((path) => !path.slice(start).includes('/'))
      .map((path) => [path.slice(start), this.entries.get(path) ? FileType.File : FileType.Directory]);
  }

  createDirectory(uri) {
    this.entries.set(uri.path, null);
    this.tell(FileChangeType.Created, uri);
  }

  readFile(uri) {
    const bytes = this.entries.get(uri.path);
    if (!bytes) throw FileSystemError.FileNotFound(uri);
    return bytes;
  }

  writeFile(uri, content) {
    const known = this.entries.has(uri.path);
    const bytes = Uint8Array.from(content);
    bytes.mtime = Date.now();
    this.add(uri.path, bytes);
    this.tell(known ? FileChangeType.Changed : FileChangeType.Created, uri);
  }

  delete(uri) {
    for (const path of [uri.path, ...this.below(uri.path)]) this.entries.delete(path);
    this.tell(FileChangeType.Deleted, uri);
  }

  rename(from, to) {
    for (const path of [from.path, ...this.below(from.path)]) {
      const bytes = this.entries.get(path);
      this.entries.delete(path);
      if (bytes === null) this.entries.set(to.path + path.slice(from.path.length), null);
      else this.add(to.path + path.slice(from.path.length), bytes);
    }
    this.tell(FileChangeType.Deleted, from);
    this.tell(FileChangeType.Created, to);
  }
}

exports.activate = async (context) => {
  const memory = new Memory();
  const address = vscode.Uri.joinPath(context.extensionUri, '..', 'files.json').toString(true);
  for (const [path, text] of Object.entries(await (await fetch(address)).json()))
    memory.add(path, new TextEncoder().encode(text));
  context.subscriptions.push(vscode.workspace.registerFileSystemProvider('memory', memory));
};
