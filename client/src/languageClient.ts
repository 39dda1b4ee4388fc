// A bundle of its own, which is loaded while the process of the server starts.
export { LanguageClient } from 'vscode-languageclient/node';
